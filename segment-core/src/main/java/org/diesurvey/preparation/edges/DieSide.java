package org.diesurvey.preparation.edges;

import java.util.Locale;
import org.diesurvey.Supported;
import org.diesurvey.raster.Axis;

/** A side of the upright die, in the order clockwise from the upper one. */
@Supported
public enum DieSide {
  /** Towards the top of the upright die. */
  UPPER(Axis.X, false),
  /** Right of the upright die. */
  RIGHT(Axis.Y, true),
  /** Towards the bottom of the upright die. */
  LOWER(Axis.X, true),
  /** Left of the upright die. */
  LEFT(Axis.Y, false);

  private final Axis along;
  private final boolean far;

  DieSide(Axis along, boolean far) {
    this.along = along;
    this.far = far;
  }

  /** The axis that the side runs along. */
  public Axis along() {
    return along;
  }

  /** Whether it lies at the far end of the axis across it, as the right and the lower side do. */
  public boolean far() {
    return far;
  }

  /** The side where places along this one begin: the left or the upper one. */
  public DieSide begin() {
    return along == Axis.X ? LEFT : UPPER;
  }

  /** The side where places along this one end: the right or the lower one. */
  public DieSide end() {
    return along == Axis.X ? RIGHT : LOWER;
  }

  /** As written in documents and sentences: "upper". */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }
}
