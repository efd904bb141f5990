package org.diesurvey.comparison;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.classification.DieClass;
import org.diesurvey.comparison.document.Change;
import org.diesurvey.comparison.document.ChangeKind;
import org.diesurvey.comparison.document.ComparedDie;
import org.diesurvey.comparison.document.Comparison;
import org.diesurvey.comparison.document.DifferenceSummary;
import org.diesurvey.comparison.document.EstimateShift;
import org.diesurvey.comparison.document.LengthUnit;
import org.diesurvey.comparison.document.Orientation;
import org.diesurvey.comparison.document.QuantityShift;
import org.diesurvey.comparison.document.RegionMatch;
import org.diesurvey.comparison.document.Registration;
import org.diesurvey.comparison.tiles.DifferenceMap;
import org.diesurvey.preparation.edges.DieSide;
import org.diesurvey.quantity.Measured;
import org.diesurvey.raster.PlaneTransform;
import org.diesurvey.survey.Notice;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Point;

/** A comparison made up by hand for tests of pages and files: a die of 800 x 600 um. */
public final class SmallComparison {
  private SmallComparison() {}

  /** Two photographs of these names with one change of each kind. */
  public static Comparison of(String earlier, String later) {
    return of(earlier, later, changes(), true);
  }

  /** The same without a change. */
  public static Comparison unchanged(String earlier, String later) {
    return of(earlier, later, List.of(), true);
  }

  /** The same in px. */
  public static Comparison unscaled(String earlier, String later) {
    return of(earlier, later, changes(), false);
  }

  private static Comparison of(String earlier, String later, List<Change> changes, boolean scaled) {
    Registration registration =
        new Registration(
            Orientation.R90,
            new PlaneTransform(0, -1, 600, 1, 0, 0),
            new Registration.Parts(0.42, new Measured(1.013, 0.0004), true, 0.02),
            new Registration.Fit(0.31, 0.12, 140, 121, 0.87),
            "140 places of both pictures were compared; 121 agree.",
            List.of(
                new Registration.Trial(Orientation.R90, 0.81, 1.013, Optional.empty()),
                new Registration.Trial(
                    Orientation.M0, 0.22, 0.98, Optional.of("no place agrees with another"))));
    return new Comparison(
        "0.1.0",
        scaled ? LengthUnit.UM : LengthUnit.PX,
        die(earlier, "a", scaled),
        die(later, "b", scaled),
        registration,
        changes,
        List.of(
            new RegionMatch(
                List.of("LOG1"),
                List.of("LOG1"),
                RegionMatch.Verdict.UNCHANGED,
                Optional.empty(),
                0.93,
                Optional.of(0.8),
                ""),
            new RegionMatch(
                List.of("MAC4"),
                List.of("MEM3"),
                RegionMatch.Verdict.JUDGED_DIFFERENTLY,
                Optional.empty(),
                0.9,
                Optional.of(0.85),
                "The pictures agree <b>here</b>.")),
        List.of(
            new QuantityShift(
                "memory array",
                "mm2",
                Optional.of(new Measured(0.05, 0.001)),
                Optional.of(new Measured(0.06, 0.001)),
                Optional.of(new Measured(0.01, 0.0014))),
            new QuantityShift(
                "hard macro",
                "share",
                Optional.of(new Measured(0.05, 0.001)),
                Optional.empty(),
                Optional.empty())),
        List.of(
            new EstimateShift(
                "memory bits",
                "bit",
                Optional.of(new EstimateShift.Span(10000, 20480, 41000)),
                Optional.empty())),
        new DifferenceSummary(20, 0.8, 0.1, 0.06, 0.04, 0.82, 0.3),
        List.of(
            new Notice(
                "scale-conflict",
                "The stated scales differ by 1.3 %.",
                "Measure one of them again.")));
  }

  private static ComparedDie die(String name, String digit, boolean scaled) {
    return new ComparedDie(
        name,
        digit.repeat(64),
        1,
        "drawn dies",
        "c".repeat(64),
        scaled ? Optional.of(Calibration.ofPixelPitch(0.5, 0.002)) : Optional.empty(),
        scaled ? Optional.of(new Measured(0.8, 0.004)) : Optional.empty(),
        scaled ? Optional.of(new Measured(0.6, 0.003)) : Optional.empty(),
        true,
        1.25);
  }

  private static List<Change> changes() {
    return List.of(
        change("C1", ChangeKind.MOVED, box(100, 100, 80, 60), box(160, 100, 80, 60)),
        change("C2", ChangeKind.RESIZED, box(400, 100, 100, 100), box(400, 100, 150, 100)),
        change("C3", ChangeKind.CLASS, box(100, 300, 90, 90), box(100, 300, 90, 90)),
        change("C4", ChangeKind.TEXTURE, box(300, 300, 60, 60), box(300, 300, 60, 60)),
        change("C5", ChangeKind.NEW, List.of(), box(500, 400, 100, 60)),
        change("C6", ChangeKind.GONE, box(650, 450, 70, 70), List.of()));
  }

  private static Change change(
      String id, ChangeKind kind, List<Outline> before, List<Outline> after) {
    boolean moved = kind == ChangeKind.MOVED;
    boolean resized = kind == ChangeKind.RESIZED;
    return new Change(
        id,
        kind,
        new Change.Side(
            Optional.of(kind == ChangeKind.NEW ? DieClass.LOGIC : DieClass.HARD_MACRO),
            before.isEmpty() ? List.of() : List.of("MAC1"),
            before),
        new Change.Side(
            Optional.of(kind == ChangeKind.GONE ? DieClass.LOGIC : DieClass.MEMORY_ARRAY),
            after.isEmpty() ? List.of() : List.of("MEM1"),
            after),
        new Change.Size(
            moved ? new Measured(60, 0.4) : new Measured(5000, 210),
            moved
                ? Change.Measure.DISTANCE
                : resized ? Change.Measure.AREA_CHANGE : Change.Measure.AREA,
            moved ? 150 : 23.8),
        new Change.Displacement(
            moved
                ? Optional.of(new Change.Shift(new Measured(60, 0.3), new Measured(0, 0.3)))
                : Optional.empty(),
            resized
                ? List.of(new Change.SideMove(DieSide.RIGHT, new Measured(50, 0.5)))
                : List.of()),
        Optional.of(0.12),
        0.9,
        "Something <i>happened</i> & \"more\".");
  }

  private static List<Outline> box(double x, double y, double w, double h) {
    return List.of(
        new Outline(
            List.of(
                new Point(x, y), new Point(x + w, y), new Point(x + w, y + h), new Point(x, y + h)),
            List.of()));
  }

  /** Tiles of 20 um: two that differ in the uppermost row, one that cannot be judged. */
  public static DifferenceMap map() {
    byte[] states = new byte[40 * 30];
    states[5] = (byte) DifferenceMap.State.DIFFERENT.ordinal();
    states[6] = (byte) DifferenceMap.State.DIFFERENT.ordinal();
    states[400] = (byte) DifferenceMap.State.NOT_JUDGED.ordinal();
    float[] similarity = new float[states.length];
    Arrays.fill(similarity, 0.8f);
    return new DifferenceMap(40, 30, 20, similarity, states);
  }
}
