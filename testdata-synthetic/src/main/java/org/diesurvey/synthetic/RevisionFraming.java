package org.diesurvey.synthetic;

/** Photographs of whole dies in any orientation. */
final class RevisionFraming {
  private RevisionFraming() {}

  /**
   * The whole die with some background.
   *
   * @param orientation bits as {@link RevisionTruth#orientation}
   * @param finestUmPerPx finest sampling that keeps the photograph within its limit
   */
  static Framing draw(Dice dice, RectUm die, int orientation, double finestUmPerPx) {
    double u = dice.logUniform(finestUmPerPx, RevisionPair.COARSEST_UM_PER_PX);
    double turn = dice.uniform(-5, 5);
    double margin = dice.uniform(0.02, 0.07);
    double a = StrictMath.toRadians(turn);
    double c = StrictMath.cos(a);
    double s = StrictMath.sin(a);
    // Columns of the map: where the die's own axes point in the photograph.
    double mx = (orientation & 1) != 0 ? -1 : 1;
    double my = (orientation & 2) != 0 ? -1 : 1;
    boolean exchanged = (orientation & 4) != 0;
    double ax = exchanged ? 0 : mx;
    double ay = exchanged ? mx : 0;
    double bx = exchanged ? my : 0;
    double by = exchanged ? 0 : my;
    double xx = (c * ax - s * ay) / u;
    double yx = (s * ax + c * ay) / u;
    double xy = (c * bx - s * by) / u;
    double yy = (s * bx + c * by) / u;
    double spanX = Math.abs(xx) * die.widthUm() + Math.abs(xy) * die.heightUm();
    double spanY = Math.abs(yx) * die.widthUm() + Math.abs(yy) * die.heightUm();
    int w = (int) StrictMath.ceil(spanX * (1 + 2 * margin));
    int h = (int) StrictMath.ceil(spanY * (1 + 2 * margin));
    double room = 0.6 * margin;
    double toX = w / 2.0 + dice.uniform(-room, room) * spanX;
    double toY = h / 2.0 + dice.uniform(-room, room) * spanY;
    double fromX = die.widthUm() / 2;
    double fromY = die.heightUm() / 2;
    UmToPx map =
        new UmToPx(xx, xy, toX - xx * fromX - xy * fromY, yx, yy, toY - yx * fromX - yy * fromY);
    double rotation = StrictMath.toDegrees(StrictMath.atan2(yx, xx));
    return new Framing(u, rotation, die, die.grown(6 * u), true, w, h, map);
  }

  /** Finest sampling at which a turned die with background stays within the limit. */
  static double finestUmPerPx(RectUm die, double maxMegapixels) {
    double c = StrictMath.cos(StrictMath.toRadians(5));
    double s = StrictMath.sin(StrictMath.toRadians(5));
    double w = (c * die.widthUm() + s * die.heightUm()) * 1.14;
    double h = (s * die.widthUm() + c * die.heightUm()) * 1.14;
    return Math.sqrt(w * h / (maxMegapixels * 1e6));
  }
}
