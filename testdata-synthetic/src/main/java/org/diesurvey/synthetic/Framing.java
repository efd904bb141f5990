package org.diesurvey.synthetic;

/**
 * Which part of which die the photo shows, and how.
 *
 * @param die the die, at the origin
 * @param windowUm what the canvas has to hold
 */
record Framing(
    double umPerPx,
    double rotationDeg,
    RectUm die,
    RectUm windowUm,
    boolean wholeDie,
    int widthPx,
    int heightPx,
    UmToPx umToPx) {

  /** Margin of a field from the die edge; wider than any seal ring drawn. */
  private static final double SEAL_UM = 75;

  /** Largest side of a die of the wide style, um. */
  private static final double MOST_DIE_UM = 9000;

  /** Surfaces change over this distance at the least, um; coarse pictures show no less than px. */
  private static final double PATCH_UM = 8;

  private static final double PATCH_PX = 3;

  /** Larger dies of the wide style would show more of the same, and take long. */
  private static final double MOST_PATCHES = 45_000;

  /** Shares of pictures that show the whole die, where it can be one (own choice). */
  private static final double WHOLE = 0.88;

  private static final double WIDE_WHOLE = 0.72;

  /** Half of the pictures at usual samplings, the others far coarser or finer. */
  private static double widely(Dice dice, double usual) {
    return switch (dice.weighted(5, 2.5, 1.5)) {
      case 0 -> usual;
      case 1 -> dice.logUniform(1, 7);
      default -> dice.logUniform(0.05, 0.3);
    };
  }

  static Framing draw(Dice dice, DrawOptions options) {
    // Most lab photos of whole dies lie around half a micrometre per pixel.
    double usual = clamped(0.6 * StrictMath.exp(0.6 * dice.normal()), 0.15, 2);
    boolean wide = options.style().wide();
    double u = options.umPerPx().orElse(wide ? widely(dice.child("sampling"), usual) : usual);
    double most = options.maxMegapixels() * 1e6;
    if (wide) {
      // No die is drawn larger than that, for the sake of time.
      double patch = Math.max(PATCH_UM / u, PATCH_PX);
      most =
          Math.min(
              most, Math.min(MOST_DIE_UM / u * (MOST_DIE_UM / u), MOST_PATCHES * patch * patch));
    }
    double pixels =
        most * (options.style() == DrawOptions.Style.SHOWPIECE ? 0.98 : dice.uniform(0.4, 0.98));
    double aspect = dice.uniform(0.7, 1.45);
    double rotation =
        dice.chance(0.15)
            ? 0
            : dice.chance(0.12) ? dice.uniform(-15, 15) : dice.uniform(-5, 5) * dice.uniform(0, 1);
    if (options.style() == DrawOptions.Style.SHOWPIECE) {
      aspect = 1.25;
      rotation = 0.8;
    }
    int w = (int) StrictMath.sqrt(pixels * aspect);
    int h = (int) (pixels / w);
    boolean small = Math.min(w, h) * u < 700;
    boolean whole =
        switch (options.framing()) {
          case WHOLE_DIE -> true;
          case FIELD -> false;
          case ANY -> !small && dice.chance(wide ? WIDE_WHOLE : WHOLE);
        };
    double c = StrictMath.cos(StrictMath.toRadians(Math.abs(rotation)));
    double s = StrictMath.sin(StrictMath.toRadians(Math.abs(rotation)));
    if (whole) {
      double margin = dice.uniform(0.015, 0.09);
      double roomW = w * u * (1 - 2 * margin);
      double roomH = h * u * (1 - 2 * margin);
      // A die of size a x b turned by the angle needs a c + b s by a s + b c.
      double det = c * c - s * s;
      double dieW = Math.max((roomW * c - roomH * s) / det, roomW * 0.5);
      double dieH = Math.max((roomH * c - roomW * s) / det, roomH * 0.5);
      double fit =
          Math.min(1, Math.min(roomW / (dieW * c + dieH * s), roomH / (dieW * s + dieH * c)));
      RectUm die = new RectUm(0, 0, dieW * fit, dieH * fit);
      double room = margin * Math.min(w, h) * 0.6;
      UmToPx map =
          UmToPx.turned(
              u,
              rotation,
              new PointUm(die.widthUm() / 2, die.heightUm() / 2),
              w / 2.0 + dice.uniform(-room, room),
              h / 2.0 + dice.uniform(-room, room));
      return new Framing(u, rotation, die, die.grown(6 * u), true, w, h, map);
    }
    double fieldW = (w * c + h * s) * u;
    double fieldH = (w * s + h * c) * u;
    RectUm die =
        new RectUm(
            0,
            0,
            Math.max(900, fieldW * dice.uniform(1.1, 2.5)) + 2 * SEAL_UM,
            Math.max(900, fieldH * dice.uniform(1.1, 2.5)) + 2 * SEAL_UM);
    PointUm centre = new PointUm(die.widthUm() / 2, die.heightUm() / 2);
    return new Framing(
            u,
            rotation,
            die,
            die,
            false,
            w,
            h,
            UmToPx.turned(u, rotation, centre, w / 2.0, h / 2.0))
        .centredOn(centre, true);
  }

  /**
   * A field moved to a point; a photo of a whole die stays as it is.
   *
   * @param inside keeps the field clear of the die edge, as close to the point as that allows
   */
  Framing centredOn(PointUm target, boolean inside) {
    if (wholeDie) {
      return this;
    }
    double c = Math.abs(StrictMath.cos(StrictMath.toRadians(rotationDeg)));
    double s = Math.abs(StrictMath.sin(StrictMath.toRadians(rotationDeg)));
    double fieldW = (widthPx * c + heightPx * s) * umPerPx;
    double fieldH = (widthPx * s + heightPx * c) * umPerPx;
    double marginX = inside ? SEAL_UM + fieldW / 2 : fieldW * 0.1;
    double marginY = inside ? SEAL_UM + fieldH / 2 : fieldH * 0.1;
    double x = clamped(target.xUm(), marginX, die.widthUm() - marginX);
    double y = clamped(target.yUm(), marginY, die.heightUm() - marginY);
    RectUm window = new RectUm(x - fieldW / 2, y - fieldH / 2, fieldW, fieldH).grown(6 * umPerPx);
    UmToPx map =
        UmToPx.turned(umPerPx, rotationDeg, new PointUm(x, y), widthPx / 2.0, heightPx / 2.0);
    return new Framing(umPerPx, rotationDeg, die, window, false, widthPx, heightPx, map);
  }

  private static double clamped(double value, double low, double high) {
    return Math.max(low, Math.min(high, value));
  }

  /** Technologies far finer than the sampling show nothing and would only cost time. */
  double finestNodeNm() {
    return Math.min(180, umPerPx * 75);
  }

  /** Technologies far coarser than the field show a few cells only. */
  double coarsestNodeNm() {
    return Math.max(90, Math.min(widthPx, heightPx) * umPerPx * 0.35);
  }
}
