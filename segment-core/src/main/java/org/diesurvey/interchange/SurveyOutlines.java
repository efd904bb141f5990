package org.diesurvey.interchange;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.Supported;
import org.diesurvey.classification.UnclearReason;
import org.diesurvey.raster.PlaneTransform;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Point;
import org.diesurvey.survey.RegionShape;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.SurveyRegion;

/** The outlines of a survey, and the way between its two frames. */
@Supported
public final class SurveyOutlines {
  private SurveyOutlines() {}

  /** In the die frame where the survey has a scale, else in that of the photograph. */
  public static OutlineSet of(Survey survey) {
    return of(
        survey,
        survey.scale().calibration().isPresent() ? OutlineFrame.DIE_UM : OutlineFrame.PHOTO_PX);
  }

  /**
   * @throws DieInputException SCALE_INVALID if um are asked of a survey without a scale
   */
  public static OutlineSet of(Survey survey, OutlineFrame frame) {
    boolean um = frame == OutlineFrame.DIE_UM;
    if (um) {
      requireScale(survey);
    }
    List<ClassedOutline> all = new ArrayList<>();
    for (SurveyRegion r : survey.regions()) {
      RegionShape shape = um ? inDie(r, survey) : r.inPhoto();
      all.add(region(r, shape.outline()));
      List<Outline> arrays = shape.bitCellArrays();
      for (int i = 0; i < arrays.size(); i++) {
        all.add(ClassedOutline.bitCells(r.id() + "." + (i + 1), r.id(), arrays.get(i)));
      }
    }
    return new OutlineSet(
        frame, Optional.of(um ? dieUm(survey) : photoPx(survey)), photo(survey), all);
  }

  private static RegionShape inDie(SurveyRegion r, Survey survey) {
    return r.inDie()
        .orElseThrow(
            () ->
                Refused.outline(
                    "survey of " + survey.photo().fileName(),
                    r.id(),
                    "has no corners in um although the survey has a scale: survey the photograph"
                        + " again"));
  }

  private static ClassedOutline region(SurveyRegion r, Outline shape) {
    return new ClassedOutline(
        r.id(),
        r.dieClass(),
        r.verdict().reason().map(UnclearReason::label),
        shape,
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.of(
            new StatedMeasures(
                r.areaMm2(), r.area().px2(), r.area().shareOfDie(), r.confidence(), pads(r))));
  }

  private static OptionalInt pads(SurveyRegion r) {
    return r.bondPads().map(b -> OptionalInt.of(b.pads())).orElse(OptionalInt.empty());
  }

  /** The photograph of a survey. */
  public static PhotoLink photo(Survey survey) {
    return new PhotoLink(
        Optional.of(survey.photo().fileName()),
        Optional.of(survey.photo().sha256()),
        survey
            .scale()
            .calibration()
            .map(c -> OptionalDouble.of(c.umPerPx().value()))
            .orElse(OptionalDouble.empty()));
  }

  /** The photograph's size. */
  public static Extent photoPx(Survey survey) {
    return new Extent(survey.photo().widthPx(), survey.photo().heightPx());
  }

  /**
   * The die's size in um, from its outline and the pitch.
   *
   * @throws DieInputException SCALE_INVALID without a scale
   */
  public static Extent dieUm(Survey survey) {
    double pitch = requireScale(survey);
    List<Point> c = survey.die().outlinePx();
    return new Extent(
        pitch * (length(c.get(0), c.get(1)) + length(c.get(3), c.get(2))) / 2,
        pitch * (length(c.get(0), c.get(3)) + length(c.get(1), c.get(2))) / 2);
  }

  /**
   * The map from the photograph (px, y down) to the die (um, y up): the die's rotation, the pitch,
   * the change of the y axis, and the shift that carries the survey's own corners from one frame to
   * the other (a survey without regions: the lower left die corner, which may differ from the
   * former by a pixel of the raster that was surveyed).
   *
   * @throws DieInputException SCALE_INVALID without a scale
   */
  public static PlaneTransform photoToDie(Survey survey) {
    double pitch = requireScale(survey);
    double turn = Math.toRadians(survey.die().rotationDeg());
    double a = pitch * Math.cos(turn);
    double b = pitch * Math.sin(turn);
    PlaneTransform turned = new PlaneTransform(a, b, 0, b, -a, 0);
    double dx = 0;
    double dy = 0;
    long n = 0;
    for (SurveyRegion r : survey.regions()) {
      List<Point> px = r.inPhoto().outline().shell();
      List<Point> um = r.inDie().map(d -> d.outline().shell()).orElse(List.of());
      for (int i = 0; i < px.size() && px.size() == um.size(); i++) {
        dx += um.get(i).x() - turned.x(px.get(i).x(), px.get(i).y());
        dy += um.get(i).y() - turned.y(px.get(i).x(), px.get(i).y());
        n++;
      }
    }
    Point corner = survey.die().outlinePx().get(0);
    return n == 0
        ? new PlaneTransform(
            a, b, -turned.x(corner.x(), corner.y()), b, -a, -turned.y(corner.x(), corner.y()))
        : new PlaneTransform(a, b, dx / n, b, -a, dy / n);
  }

  /**
   * Outlines from a file in the die frame of a survey, once it is clear that they belong to the
   * same photograph and lie on the die.
   *
   * @param place what to call the file in messages
   * @throws DieInputException DOCUMENT_INVALID if they are of another photograph or off the die;
   *     SCALE_INVALID without a scale
   */
  public static OutlineSet onDie(OutlineSet set, Survey survey, String place) {
    OutlineChecks.requirePhoto(set.photo(), survey.photo().sha256(), place);
    Optional<Extent> die = Optional.of(dieUm(survey));
    OutlineSet um =
        set.frame() == OutlineFrame.DIE_UM
            ? new OutlineSet(set.frame(), die, set.photo(), set.outlines())
            : set.in(OutlineFrame.DIE_UM, photoToDie(survey), die);
    return OutlineChecks.checked(um, place);
  }

  /**
   * Outlines from a file in the frame of the surveyed photograph, once it is clear that they belong
   * to it and lie on it; this needs a scale only for outlines in um.
   *
   * @param place what to call the file in messages
   * @throws DieInputException DOCUMENT_INVALID if they are of another photograph or off it;
   *     SCALE_INVALID for outlines in um if the survey has no scale
   */
  public static OutlineSet onPhoto(OutlineSet set, Survey survey, String place) {
    OutlineChecks.requirePhoto(set.photo(), survey.photo().sha256(), place);
    Optional<Extent> photo = Optional.of(photoPx(survey));
    OutlineSet px =
        set.frame() == OutlineFrame.PHOTO_PX
            ? new OutlineSet(set.frame(), photo, set.photo(), set.outlines())
            : set.in(OutlineFrame.PHOTO_PX, photoToDie(survey).inverse(), photo);
    return OutlineChecks.checked(px, place);
  }

  private static double requireScale(Survey survey) {
    return survey
        .scale()
        .calibration()
        .map(c -> c.umPerPx().value())
        .orElseThrow(
            () ->
                new DieInputException(
                    Reason.SCALE_INVALID,
                    survey.photo().fileName()
                        + ": the survey has no scale, so outlines in um cannot be made of it:"
                        + " survey the photograph with a scale, or export a kind in pixels (svg,"
                        + " annotations)."));
  }

  private static double length(Point a, Point b) {
    return Math.hypot(a.x() - b.x(), a.y() - b.y());
  }
}
