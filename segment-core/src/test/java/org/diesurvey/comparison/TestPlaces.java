package org.diesurvey.comparison;

import java.util.List;
import java.util.Optional;
import org.diesurvey.comparison.document.Comparison;
import org.diesurvey.comparison.document.Orientation;
import org.diesurvey.comparison.document.Registration;
import org.diesurvey.photo.PixelSource;
import org.diesurvey.preparation.DieLocation;
import org.diesurvey.preparation.PreparedDie;
import org.diesurvey.preparation.edges.DieSide;
import org.diesurvey.quantity.Measured;
import org.diesurvey.raster.PixelPoint;
import org.diesurvey.raster.PlaneTransform;

/** Results of comparisons with given places, for tests of pictures. */
public final class TestPlaces {
  private TestPlaces() {}

  /** A die that lies upright in its photograph between two corners, px. */
  public static DiePlace place(
      PixelSource photo, double x0, double y0, double x1, double y1, double umPerPx) {
    DieLocation frame =
        new DieLocation(
            List.of(DieSide.values()),
            List.of(
                new PixelPoint(x0, y0),
                new PixelPoint(x1, y0),
                new PixelPoint(x1, y1),
                new PixelPoint(x0, y1)),
            0,
            0.5,
            false);
    return new DiePlace(PreparedDie.of(photo, frame, 1), umPerPx);
  }

  /** The small comparison with another map between the dies. */
  public static ComparisonResult result(DiePlace a, DiePlace b, PlaneTransform aToB) {
    Comparison c = SmallComparison.of("a.png", "b.png");
    Registration r = c.registration();
    Registration laid =
        new Registration(
            Orientation.M0,
            aToB,
            new Registration.Parts(0, new Measured(1, 0), false, 0),
            r.fit(),
            r.method(),
            List.of(new Registration.Trial(Orientation.M0, 1, 1, Optional.empty())));
    return new ComparisonResult(
        new Comparison(
            c.softwareVersion(),
            c.unit(),
            c.a(),
            c.b(),
            laid,
            c.changes(),
            c.matches(),
            c.totals(),
            c.estimates(),
            c.difference(),
            c.notices()),
        SmallComparison.map(),
        a,
        b);
  }
}
