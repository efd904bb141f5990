package org.diesurvey.survey;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeMap;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.classification.DieClass;
import org.diesurvey.classification.UnclearReason;
import org.diesurvey.photo.PhotoInfo;
import org.diesurvey.preparation.PreparationStep;
import org.diesurvey.quantity.Measured;
import org.diesurvey.quantity.MeasuredArea;

/**
 * A survey small enough to work out by hand: a photo of 40 x 30 px, a die of 32 x 24 px at (4, 3),
 * 2 um/px, so 64 x 48 um. A pad ring 4 px wide, a memory of 10 x 8 px with one bit-cell array,
 * logic on the rest of the left half, the right half empty.
 */
public final class SmallSurvey {
  private SmallSurvey() {}

  /** With or without a scale. */
  public static Survey of(boolean scaled) {
    return of(scaled, "small.png");
  }

  /** With any file name. */
  public static Survey of(boolean scaled, String fileName) {
    return new Survey(
        new PhotoInfo(
            fileName,
            "0123456789abcdef".repeat(4),
            1234,
            "PNG",
            40,
            30,
            8,
            1,
            Optional.of(new PhotoInfo.TaggedScale(352.777778, "PNG pHYs"))),
        new SurveyMethod(
            new Software("diesurvey", "0.1.0", "test 1", "0".repeat(64)),
            1,
            OptionalDouble.of(130),
            16),
        new ScaleRecord(
            scaled ? Optional.of(Calibration.ofPixelPitch(2, 0.01)) : Optional.empty(),
            scaled
                ? Optional.empty()
                : Optional.of(new ScaleRecord.InferredRange(1, 4, "The row height fits."))),
        new DieFrame(
            true,
            List.of(new Point(4, 27), new Point(36, 27), new Point(36, 3), new Point(4, 3)),
            0,
            scaled ? Optional.of(new Measured(0.064, 0.00032)) : Optional.empty(),
            scaled ? Optional.of(new Measured(0.048, 0.00024)) : Optional.empty(),
            scaled ? Optional.of(new Measured(0.003072, 0.0000307)) : Optional.empty(),
            768),
        new Preparation(
            List.of(
                new PreparationStep(
                    PreparationStep.Kind.DIE_EDGE,
                    "Nothing was done.",
                    new TreeMap<>(Map.of("rotation_deg", 0.25)))),
            2,
            1,
            Optional.of(new Preparation.FlatFieldFile("empty.png", "ab".repeat(32))),
            List.of(new Preparation.DamageShare(Preparation.Damage.DARK, 3, 0.015)),
            0),
        List.of(
            region("MEM1", DieClass.MEMORY_ARRAY, box(8, 7, 10, 8), List.of(), scaled),
            region("LOG1", DieClass.LOGIC, box(8, 7, 12, 16), List.of(box(8, 7, 10, 8)), scaled),
            region(
                "PAD1", DieClass.PAD_RING, box(4, 3, 32, 24), List.of(box(8, 7, 24, 16)), scaled),
            // Lies over the logic by two columns: classes win.
            region("UNC1", DieClass.UNCLEAR, box(18, 7, 14, 16), List.of(), scaled)),
        List.of(
            total(DieClass.MEMORY_ARRAY, 80, scaled),
            total(DieClass.LOGIC, 112, scaled),
            total(DieClass.PAD_RING, 384, scaled),
            total(DieClass.UNCLEAR, 192, scaled)),
        List.of(new Notice("odd-notice", "A <b>bold</b> claim.", "Read \"it\" & think.")),
        Optional.empty());
  }

  private static List<Point> box(double x, double y, double w, double h) {
    return List.of(
        new Point(x, y), new Point(x + w, y), new Point(x + w, y + h), new Point(x, y + h));
  }

  private static Point um(Point px) {
    return new Point(2 * (px.x() - 4), 2 * (27 - px.y()));
  }

  private static Outline um(Outline px) {
    return new Outline(
        px.shell().stream().map(SmallSurvey::um).toList(),
        px.holes().stream().map(h -> h.stream().map(SmallSurvey::um).toList()).toList());
  }

  private static Optional<MeasuredArea> mm2(double areaPx, boolean scaled) {
    double mm2 = areaPx * 4e-6;
    return scaled ? Optional.of(MeasuredArea.of(mm2, 0, 0.01 * mm2)) : Optional.empty();
  }

  private static ClassTotal total(DieClass c, double areaPx, boolean scaled) {
    return new ClassTotal(
        c,
        c == DieClass.UNCLEAR ? Optional.of(UnclearReason.EMPTY) : Optional.empty(),
        1,
        mm2(areaPx, scaled),
        areaPx / 768);
  }

  private static SurveyRegion region(
      String id, DieClass c, List<Point> shell, List<List<Point>> holes, boolean scaled) {
    Outline px = new Outline(shell, holes);
    double area = area(shell) - holes.stream().mapToDouble(SmallSurvey::area).sum();
    boolean memory = c == DieClass.MEMORY_ARRAY;
    Outline array = new Outline(box(9, 8, 8, 6), List.of());
    Map<DieClass, Double> p = new EnumMap<>(DieClass.class);
    p.put(DieClass.MEMORY_ARRAY, memory ? 0.9 : 0.1);
    p.put(DieClass.HARD_MACRO, 0.05);
    p.put(DieClass.LOGIC, memory ? 0.03 : 0.83);
    p.put(DieClass.PAD_RING, 0.02);
    return new SurveyRegion(
        id,
        new ClassVerdict(
            c,
            c == DieClass.UNCLEAR ? Optional.of(UnclearReason.EMPTY) : Optional.empty(),
            memory ? 0.8 : 0.6,
            p),
        new RegionShape(px, memory ? List.of(array) : List.of()),
        scaled
            ? Optional.of(new RegionShape(um(px), memory ? List.of(um(array)) : List.of()))
            : Optional.empty(),
        new RegionArea(
            area,
            mm2(area, scaled),
            area / 768,
            memory && scaled
                ? Optional.of(
                    new MemoryParts(
                        new Measured(0.000192, 0.000003), new Measured(0.000128, 0.000004)))
                : Optional.empty()),
        memory ? List.of(new Period(new Measured(2.4, 0.012), 90, 0.75)) : List.of(),
        memory
            ? Optional.of(
                new FinePattern(
                    FinePattern.Verdict.ONE_DIRECTION,
                    scaled ? OptionalDouble.of(1.25) : OptionalDouble.empty(),
                    2.5))
            : Optional.empty(),
        memory ? List.of("LOG1", "PAD1") : List.of(),
        c == DieClass.PAD_RING
            ? Optional.of(
                new BondPadCount(
                    12,
                    Optional.of(
                        new PadCounting(
                            false,
                            1.5,
                            scaled ? OptionalDouble.of(86.25) : OptionalDouble.empty()))))
            : Optional.empty());
  }

  private static double area(List<Point> box) {
    return (box.get(2).x() - box.get(0).x()) * (box.get(2).y() - box.get(0).y());
  }
}
