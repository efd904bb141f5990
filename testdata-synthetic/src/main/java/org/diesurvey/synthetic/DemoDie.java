package org.diesurvey.synthetic;

/**
 * The die of the demo: an invented sensor hub of a 130 nm class process, about 8 MP at 0.5 um/px.
 */
public final class DemoDie {
  /** Seed of the demo die. */
  public static final long SEED = 15L;

  private DemoDie() {}

  /** Options of the demo die. */
  public static DrawOptions options() {
    return DrawOptions.defaults()
        .withUmPerPx(0.5)
        .withMaxMegapixels(8)
        .withNodes(135, 125)
        .withFraming(DrawOptions.Framing.WHOLE_DIE)
        .withSeverity(0.5)
        .withStyle(DrawOptions.Style.SHOWPIECE);
  }

  /** Draws it. */
  public static DrawnDie draw() {
    return DieDrawing.draw(SEED, options());
  }
}
