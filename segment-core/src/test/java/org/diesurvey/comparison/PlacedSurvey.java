package org.diesurvey.comparison;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.classification.DieClass;
import org.diesurvey.photo.PhotoInfo;
import org.diesurvey.quantity.Measured;
import org.diesurvey.survey.ClassVerdict;
import org.diesurvey.survey.DieFrame;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Point;
import org.diesurvey.survey.Preparation;
import org.diesurvey.survey.RegionArea;
import org.diesurvey.survey.RegionShape;
import org.diesurvey.survey.ScaleRecord;
import org.diesurvey.survey.Software;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.SurveyMethod;
import org.diesurvey.survey.SurveyRegion;

/** Surveys of dies made up of blocks, at 0.5 um/px, the die 40 px from the photograph's sides. */
public final class PlacedSurvey {
  private static final double PITCH = 0.5;
  private static final double ROOM = 40;

  private PlacedSurvey() {}

  public static Survey of(
      double widthUm, double heightUm, List<PlacedBlock> blocks, boolean scaled) {
    double w = widthUm / PITCH;
    double h = heightUm / PITCH;
    List<SurveyRegion> regions = new ArrayList<>();
    for (PlacedBlock b : blocks) {
      double left = ROOM + b.x() / PITCH;
      double low = ROOM + h - b.y() / PITCH;
      double bw = b.width() / PITCH;
      double bh = b.height() / PITCH;
      Outline px =
          new Outline(
              List.of(
                  new Point(left, low),
                  new Point(left + bw, low),
                  new Point(left + bw, low - bh),
                  new Point(left, low - bh)),
              List.of());
      Map<DieClass, Double> p = new EnumMap<>(DieClass.class);
      p.put(b.dieClass(), 1.0);
      regions.add(
          new SurveyRegion(
              b.dieClass().shortName() + (regions.size() + 1),
              new ClassVerdict(b.dieClass(), Optional.empty(), 0.9, p),
              RegionShape.of(px),
              Optional.empty(),
              new RegionArea(bw * bh, Optional.empty(), bw * bh / (w * h), Optional.empty()),
              List.of(),
              Optional.empty(),
              List.of(),
              Optional.empty()));
    }
    return new Survey(
        new PhotoInfo(
            "die.png",
            "0123456789abcdef".repeat(4),
            1234,
            "PNG",
            (int) (w + 2 * ROOM),
            (int) (h + 2 * ROOM),
            8,
            1,
            Optional.empty()),
        new SurveyMethod(
            new Software("diesurvey", "0.1.0", "test 1", "0".repeat(64)),
            1,
            OptionalDouble.empty(),
            8),
        new ScaleRecord(
            scaled ? Optional.of(Calibration.ofPixelPitch(PITCH, 0.002)) : Optional.empty(),
            Optional.empty()),
        new DieFrame(
            true,
            List.of(
                new Point(ROOM, ROOM + h),
                new Point(ROOM + w, ROOM + h),
                new Point(ROOM + w, ROOM),
                new Point(ROOM, ROOM)),
            0,
            scaled ? Optional.of(new Measured(widthUm / 1000, 0.001)) : Optional.empty(),
            scaled ? Optional.of(new Measured(heightUm / 1000, 0.001)) : Optional.empty(),
            Optional.empty(),
            w * h),
        Preparation.NONE,
        regions,
        List.of(),
        List.of(),
        Optional.empty());
  }
}
