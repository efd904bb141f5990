package org.diesurvey.synthetic;

/**
 * The engraved scale in its own frame, um: s along the axis, t along the lines. Rectangles blurred
 * by a Gaussian are products of error functions, so the picture is exact at any rotation without
 * resampling.
 */
final class MicrometerScale {
  /** Numerals as strokes of a 3 x 5 grid: x0, y0, x1, y1 each. */
  private static final double[][] STROKES = {
    {0, 0, 2, 0, 2, 0, 2, 4, 2, 4, 0, 4, 0, 4, 0, 0},
    {1, 0, 1, 4},
    {0, 0, 2, 0, 2, 0, 2, 2, 2, 2, 0, 2, 0, 2, 0, 4, 0, 4, 2, 4},
    {0, 0, 2, 0, 2, 0, 2, 4, 2, 4, 0, 4, 0, 2, 2, 2},
    {0, 0, 0, 2, 0, 2, 2, 2, 2, 0, 2, 4},
    {2, 0, 0, 0, 0, 0, 0, 2, 0, 2, 2, 2, 2, 2, 2, 4, 2, 4, 0, 4},
  };

  private static final int TABLE = 4096;
  private static final double REACH = 4;
  private static final float[] NORMAL = new float[TABLE + 1];

  static {
    // Cumulative normal distribution by Simpson's rule on [-4, 4].
    double h = 2 * REACH / TABLE;
    double sum = 0;
    for (int i = 0; i < TABLE; i++) {
      double x = -REACH + i * h;
      sum += (density(x) + 4 * density(x + h / 2) + density(x + h)) * h / 6;
      NORMAL[i + 1] = (float) sum;
    }
  }

  final double divisionUm;
  final double widthUm;
  private final double[] placesUm;
  private final double[] topsUm;
  private final double[] bottomsUm;
  private final boolean[] absent;
  private final double baseUm;
  private final boolean numerals;
  private final double numeralUm;
  int missing;

  MicrometerScale(
      Dice dice, double divisionUm, int divisions, boolean fifth, boolean tenth, double errorUm) {
    this.divisionUm = divisionUm;
    widthUm = divisionUm * dice.uniform(0.1, 0.28);
    int n = divisions + 1;
    placesUm = new double[n];
    topsUm = new double[n];
    bottomsUm = new double[n];
    absent = new boolean[n];
    double shortUm = divisionUm * dice.uniform(3, 7);
    double fifthUm = shortUm * dice.uniform(1.35, 1.8);
    double tenthUm = (fifth ? fifthUm : shortUm) * dice.uniform(1.25, 1.6);
    boolean centred = dice.chance(0.25);
    double lost = dice.chance(0.3) ? dice.uniform(0.02, 0.12) : 0;
    for (int i = 0; i < n; i++) {
      double length = tenth && i % 10 == 0 ? tenthUm : fifth && i % 5 == 0 ? fifthUm : shortUm;
      placesUm[i] = i * divisionUm + errorUm * dice.normal();
      topsUm[i] = centred ? -length / 2 : -length;
      bottomsUm[i] = centred ? length / 2 : 0;
      absent[i] = dice.chance(lost);
    }
    baseUm = dice.chance(0.6) ? widthUm : 0;
    numerals = dice.chance(0.4);
    numeralUm = (centred ? -tenthUm / 2 : -tenthUm) - divisionUm * dice.uniform(1.2, 2);
  }

  private static double density(double x) {
    return StrictMath.exp(-x * x / 2) / StrictMath.sqrt(2 * Math.PI);
  }

  private static double normal(double x) {
    if (x <= -REACH) {
      return 0;
    }
    if (x >= REACH) {
      return 1;
    }
    double at = (x + REACH) * (TABLE / (2 * REACH));
    int i = (int) at;
    return NORMAL[i] + (at - i) * (NORMAL[i + 1] - NORMAL[i]);
  }

  private static double box(double x, double low, double high, double sigma) {
    return normal((x - low) / sigma) - normal((x - high) / sigma);
  }

  int divisions() {
    return placesUm.length - 1;
  }

  /** Middle of the short lines. */
  double middleUm() {
    return (topsUm[1] + bottomsUm[1]) / 2;
  }

  boolean drawn(int line) {
    return line >= 0 && line < absent.length && !absent[line];
  }

  void leaveOut(int line) {
    absent[line] = true;
  }

  double placeUm(int line) {
    return placesUm[line];
  }

  /** Share of engraving at a place, blurred; 0 to 1. */
  double cover(double s, double t, double sigmaUm) {
    double reach = widthUm / 2 + REACH * sigmaUm + 0.05 * divisionUm;
    int first = Math.max(0, (int) StrictMath.ceil((s - reach) / divisionUm));
    int last = Math.min(divisions(), (int) StrictMath.floor((s + reach) / divisionUm));
    double open = 1;
    for (int i = first; i <= last; i++) {
      if (!absent[i]) {
        double across = box(s, placesUm[i] - widthUm / 2, placesUm[i] + widthUm / 2, sigmaUm);
        open *= 1 - across * box(t, topsUm[i], bottomsUm[i], sigmaUm);
      }
    }
    if (baseUm > 0) {
      double end = divisions() * divisionUm;
      open *= 1 - box(t, 0, baseUm, sigmaUm) * box(s, -widthUm / 2, end + widthUm / 2, sigmaUm);
    }
    if (numerals) {
      open *= 1 - numeral(s, t, sigmaUm);
    }
    return 1 - open;
  }

  private double numeral(double s, double t, double sigmaUm) {
    int tens = (int) StrictMath.round(s / (10 * divisionUm));
    if (tens < 0 || 10 * tens > divisions()) {
      return 0;
    }
    double[] strokes = STROKES[tens % STROKES.length];
    double unit = divisionUm / 3;
    double half = 0.12 * unit + widthUm / 4;
    double x = s - 10 * tens * divisionUm + unit;
    double y = t - numeralUm + 4 * unit;
    double open = 1;
    for (int i = 0; i < strokes.length; i += 4) {
      double x0 = unit * Math.min(strokes[i], strokes[i + 2]) - half;
      double x1 = unit * Math.max(strokes[i], strokes[i + 2]) + half;
      double y0 = unit * Math.min(strokes[i + 1], strokes[i + 3]) - half;
      double y1 = unit * Math.max(strokes[i + 1], strokes[i + 3]) + half;
      open *= 1 - box(x, x0, x1, sigmaUm) * box(y, y0, y1, sigmaUm);
    }
    return 1 - open;
  }
}
