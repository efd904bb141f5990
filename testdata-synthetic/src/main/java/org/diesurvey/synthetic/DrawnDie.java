package org.diesurvey.synthetic;

/** Photo of a drawn die with its label maps and truth. */
public final class DrawnDie {
  private final int widthPx;
  private final int heightPx;
  private final byte[] rgb;
  private final byte[] surface;
  private final byte[] damage;
  private final DieTruth truth;

  DrawnDie(int widthPx, int heightPx, byte[] rgb, byte[] surface, byte[] damage, DieTruth truth) {
    this.widthPx = widthPx;
    this.heightPx = heightPx;
    this.rgb = rgb;
    this.surface = surface;
    this.damage = damage;
    this.truth = truth;
  }

  /** Photo width. */
  public int widthPx() {
    return widthPx;
  }

  /** Photo height. */
  public int heightPx() {
    return heightPx;
  }

  /** Red, green, blue per pixel, row by row, unsigned; the array itself, not a copy. */
  public byte[] rgb() {
    return rgb;
  }

  /** {@link SurfaceLabel} per pixel; the array itself, not a copy. */
  public byte[] surface() {
    return surface;
  }

  /** 1 where residue, dust or a scratch hides the surface; the array itself, not a copy. */
  public byte[] damage() {
    return damage;
  }

  /** What the die truly is. */
  public DieTruth truth() {
    return truth;
  }
}
