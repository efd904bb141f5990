package org.diesurvey.preparation;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.diesurvey.photo.PixelSource;
import org.diesurvey.raster.GrayRaster;
import org.diesurvey.raster.PixelPoint;
import org.diesurvey.raster.PixelRect;
import org.diesurvey.raster.PlaneTransform;
import org.diesurvey.vision.ImageFilters;

/**
 * The die, upright: a virtual raster in the die's own axes (x right, y down, origin at the upper
 * left die corner) that is cut from the photograph band by band, rotated, evenly lit and, for very
 * fine photographs, binned.
 */
public final class PreparedDie {
  private final PixelSource source;
  private final boolean edgeFound;
  private final List<PixelPoint> corners;
  private final double rotationDeg;
  private final double edgeUncertaintyPx;
  private final int bin;
  private final int width;
  private final int height;
  private final PlaneTransform uprightToPhoto;
  private final Illumination light;
  private final List<String> steps;

  private PreparedDie(
      PixelSource source,
      boolean edgeFound,
      List<PixelPoint> corners,
      double rotationDeg,
      double edgeUncertaintyPx,
      int bin,
      List<String> steps) {
    this.source = source;
    this.edgeFound = edgeFound;
    this.corners = List.copyOf(corners);
    this.rotationDeg = rotationDeg;
    this.edgeUncertaintyPx = edgeUncertaintyPx;
    this.bin = bin;
    PixelPoint origin = corners.get(0);
    this.width = Math.max(1, (int) Math.floor(distance(origin, corners.get(1)) / bin));
    this.height = Math.max(1, (int) Math.floor(distance(origin, corners.get(3)) / bin));
    double cos = Math.cos(Math.toRadians(rotationDeg));
    double sin = Math.sin(Math.toRadians(rotationDeg));
    this.uprightToPhoto =
        new PlaneTransform(bin * cos, -bin * sin, origin.x(), bin * sin, bin * cos, origin.y());
    this.light = measureLight();
    this.steps = new ArrayList<>(steps);
    this.steps.add(
        String.format(
            Locale.ROOT,
            "Light fall-off taken out as a second-order surface; brightest over darkest %.2f.",
            light.span()));
  }

  /** Where the photograph's die is, before a working pitch is chosen. */
  public record Frame(
      boolean edgeFound, List<PixelPoint> corners, double rotationDeg, double edgeUncertaintyPx) {
    /** Copies the list. */
    public Frame {
      corners = List.copyOf(corners);
    }

    /**
     * The middle of this frame, for looking at a sample of the layout.
     *
     * @param sidePx longest side, px of the photograph; the frame itself where it is smaller
     */
    public Frame middle(double sidePx) {
      double share = Math.min(1, sidePx / Math.max(widthPx(), heightPx()));
      double cx = (corners.get(0).x() + corners.get(2).x()) / 2;
      double cy = (corners.get(0).y() + corners.get(2).y()) / 2;
      List<PixelPoint> inner =
          corners.stream()
              .map(p -> new PixelPoint(cx + share * (p.x() - cx), cy + share * (p.y() - cy)))
              .toList();
      return new Frame(false, inner, rotationDeg, edgeUncertaintyPx);
    }

    /** Length of the upper edge, px of the photograph. */
    public double widthPx() {
      return distance(corners.get(0), corners.get(1));
    }

    /** Length of the left edge, px of the photograph. */
    public double heightPx() {
      return distance(corners.get(0), corners.get(3));
    }
  }

  /**
   * Finds the die; where no edge is seen the frame is the whole photograph, turned to the layout's
   * own direction if that stands out.
   */
  public static Frame locate(PixelSource source) {
    Optional<DieEdge> edge = new DieEdgeFinder(source).find();
    if (edge.isPresent()) {
      DieEdge e = edge.get();
      return new Frame(true, e.corners(), e.rotationDeg(), e.edgeUncertaintyPx());
    }
    OptionalDouble turn = LayoutDirection.of(source);
    double deg = turn.orElse(0);
    // A turn below a tenth of a pixel per tile is not worth an interpolation.
    return wholeFrame(source, Math.abs(deg) < 0.15 ? 0 : deg);
  }

  private static Frame wholeFrame(PixelSource source, double deg) {
    double w = source.width();
    double h = source.height();
    double cos = Math.cos(Math.toRadians(deg));
    double sin = Math.sin(Math.toRadians(deg));
    double halfW = (w * Math.abs(cos) + h * Math.abs(sin)) / 2;
    double halfH = (w * Math.abs(sin) + h * Math.abs(cos)) / 2;
    List<PixelPoint> corners = new ArrayList<>();
    for (double[] s : new double[][] {{-1, -1}, {1, -1}, {1, 1}, {-1, 1}}) {
      double a = s[0] * halfW;
      double b = s[1] * halfH;
      corners.add(new PixelPoint(w / 2 + cos * a - sin * b, h / 2 + sin * a + cos * b));
    }
    return new Frame(false, corners, deg, 0.5);
  }

  /**
   * Prepares a located die.
   *
   * @param source the photograph
   * @param frame from {@link #locate}
   * @param bin photo pixels per side that are averaged into one working pixel, at least 1
   */
  public static PreparedDie of(PixelSource source, Frame frame, int bin) {
    List<String> steps = new ArrayList<>();
    steps.add(
        frame.edgeFound
            ? String.format(
                Locale.ROOT,
                "Die edge found on four sides, die turned by %.2f\u00b0 %s in the photograph.",
                Math.abs(frame.rotationDeg),
                frame.rotationDeg < 0 ? "anticlockwise" : "clockwise")
            : String.format(
                Locale.ROOT,
                "No die edge found: the whole photograph is surveyed; layout turned by %.2f\u00b0"
                    + " %s.",
                Math.abs(frame.rotationDeg),
                frame.rotationDeg < 0 ? "anticlockwise" : "clockwise"));
    if (bin > 1) {
      steps.add(
          "Averaged over "
              + bin
              + " x "
              + bin
              + " px: the photograph is sampled finer than the features need.");
    }
    return new PreparedDie(
        source,
        frame.edgeFound,
        frame.corners,
        frame.rotationDeg,
        frame.edgeUncertaintyPx,
        bin,
        steps);
  }

  private static double distance(PixelPoint a, PixelPoint b) {
    return Math.hypot(a.x() - b.x(), a.y() - b.y());
  }

  private Illumination measureLight() {
    int n = 40;
    int side = Math.max(4, Math.min(width, height) / 80);
    double[] u = new double[n * n];
    double[] v = new double[n * n];
    double[] grey = new double[n * n];
    int count = 0;
    float[] window = new float[side * side];
    for (int j = 0; j < n; j++) {
      for (int i = 0; i < n; i++) {
        double x = (i + 0.5) / n;
        double y = (j + 0.5) / n;
        int px = (int) uprightToPhoto.x(x * width, y * height) - side / 2;
        int py = (int) uprightToPhoto.y(x * width, y * height) - side / 2;
        if (px < 0 || py < 0 || px + side > source.width() || py + side > source.height()) {
          continue;
        }
        source.readGray(new PixelRect(px, py, side, side), window);
        double sum = 0;
        for (float g : window) {
          sum += g;
        }
        u[count] = 2 * x - 1;
        v[count] = 2 * y - 1;
        grey[count++] = sum / window.length;
      }
    }
    return Illumination.fit(
        java.util.Arrays.copyOf(u, count),
        java.util.Arrays.copyOf(v, count),
        java.util.Arrays.copyOf(grey, count));
  }

  /**
   * Rows of the upright die as grey values; places outside the photograph repeat its edge.
   *
   * @param y first row, may be negative
   * @param rows how many, at least 1
   * @return raster of {@link #width()} x rows
   */
  public GrayRaster rows(int y, int rows) {
    double[] xs = new double[4];
    double[] ys = new double[4];
    for (int i = 0; i < 4; i++) {
      double cx = (i & 1) * width;
      double cy = y + (i >> 1) * rows;
      xs[i] = uprightToPhoto.x(cx, cy);
      ys[i] = uprightToPhoto.y(cx, cy);
    }
    int margin = 4 * bin;
    int x0 = (int) Math.floor(min(xs)) - margin;
    int y0 = (int) Math.floor(min(ys)) - margin;
    int x1 = (int) Math.ceil(max(xs)) + margin;
    int y1 = (int) Math.ceil(max(ys)) + margin;
    x0 = Math.max(0, Math.min(x0, source.width() - 1));
    y0 = Math.max(0, Math.min(y0, source.height() - 1));
    x1 = Math.max(x0 + 1, Math.min(x1, source.width()));
    y1 = Math.max(y0 + 1, Math.min(y1, source.height()));
    PixelRect window = new PixelRect(x0, y0, x1 - x0, y1 - y0);
    float[] grey = new float[window.width() * window.height()];
    source.readGray(window, grey);
    GrayRaster raster = GrayRaster.over(window.width(), window.height(), grey);
    PlaneTransform toWindow =
        new PlaneTransform(1, 0, 0, 0, 1, y)
            .then(uprightToPhoto)
            .then(new PlaneTransform(1, 0, -x0, 0, 1, -y0));
    if (bin > 1) {
      int w = window.width() / bin;
      int h = window.height() / bin;
      if (w < 1 || h < 1) {
        w = Math.max(1, w);
        h = Math.max(1, h);
      }
      double sx = w / (double) window.width();
      double sy = h / (double) window.height();
      raster = ImageFilters.reduce(raster, w, h);
      toWindow = toWindow.then(new PlaneTransform(sx, 0, 0, 0, sy, 0));
    }
    GrayRaster upright = ImageFilters.warp(raster, toWindow, width, rows);
    applyLight(upright, y);
    return upright;
  }

  private void applyLight(GrayRaster upright, int y) {
    float[] a = upright.array();
    int block = 16;
    for (int r = 0; r < upright.height(); r++) {
      double v = 2.0 * (y + r + 0.5) / height - 1;
      for (int x = 0; x < width; x += block) {
        int end = Math.min(width, x + block);
        float gain = (float) light.gain(2.0 * (x + end) / 2 / width - 1, v);
        for (int i = r * width + x; i < r * width + end; i++) {
          a[i] *= gain;
        }
      }
    }
  }

  private static double min(double[] v) {
    return Math.min(Math.min(v[0], v[1]), Math.min(v[2], v[3]));
  }

  private static double max(double[] v) {
    return Math.max(Math.max(v[0], v[1]), Math.max(v[2], v[3]));
  }

  /** Whether a die edge was found. */
  public boolean edgeFound() {
    return edgeFound;
  }

  /**
   * Upper left, upper right, lower right, lower left of the upright die, pixel frame of the
   * photograph.
   */
  public List<PixelPoint> corners() {
    return corners;
  }

  /** Rotation in the photograph, degrees, positive clockwise as seen. */
  public double rotationDeg() {
    return rotationDeg;
  }

  /** Standard uncertainty of the place of one die edge, photo px. */
  public double edgeUncertaintyPx() {
    return edgeUncertaintyPx;
  }

  /** Photo pixels per working pixel. */
  public int bin() {
    return bin;
  }

  /** Columns of the upright raster. */
  public int width() {
    return width;
  }

  /** Rows of the upright raster. */
  public int height() {
    return height;
  }

  /** From the upright raster to the photograph. */
  public PlaneTransform uprightToPhoto() {
    return uprightToPhoto;
  }

  /** What was done, one sentence a step. */
  public List<String> steps() {
    return List.copyOf(steps);
  }

  /** The photograph. */
  public PixelSource source() {
    return source;
  }
}
