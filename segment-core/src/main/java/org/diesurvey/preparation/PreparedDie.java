package org.diesurvey.preparation;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.diesurvey.photo.PixelSource;
import org.diesurvey.preparation.edges.DieEdge;
import org.diesurvey.preparation.edges.DieEdgeFinder;
import org.diesurvey.preparation.edges.EdgeTuning;
import org.diesurvey.raster.GrayRaster;
import org.diesurvey.raster.Homography;
import org.diesurvey.raster.PixelPoint;
import org.diesurvey.raster.PixelRect;
import org.diesurvey.raster.PlaneMap;
import org.diesurvey.raster.PlaneTransform;
import org.diesurvey.vision.ImageFilters;
import org.diesurvey.vision.PerspectiveWarp;

/**
 * The die, upright: a virtual raster in the die's own axes (x right, y down, origin at the upper
 * left die corner) that is cut from the photograph band by band, rotated, evenly lit and, for very
 * fine photographs, binned.
 */
public final class PreparedDie {
  private final PixelSource source;
  private final DieLocation frame;
  private final PixelSource photo;
  private final Optional<GreyProjection> hue;
  private final int bin;
  private final int width;
  private final int height;
  private final PlaneMap uprightToPhoto;
  private final Optional<FlatField> flat;
  private final Optional<ToneCurve> tone;
  private final Optional<ToneCurve> toneOfLit;
  private final Illumination light;
  private final MissingFields missing;
  private final float filling;
  private final List<PreparationStep> steps;

  private PreparedDie(
      PixelSource photo,
      Optional<GreyProjection> hue,
      MissingFields missing,
      DieLocation frame,
      int bin,
      Optional<FlatField> flat) {
    PixelSource grey = hue.map(h -> h.applied(photo)).orElse(photo);
    this.photo = photo;
    this.hue = hue;
    this.missing = missing;
    this.frame = frame;
    this.bin = bin;
    this.flat = flat;
    this.width = Math.max(1, (int) Math.floor(frame.widthPx() / bin));
    this.height = Math.max(1, (int) Math.floor(frame.heightPx() / bin));
    this.uprightToPhoto = uprightToPhoto(frame, bin);
    LightSample levels = LightSample.of(grey, this);
    this.tone =
        ToneCurve.of(
            flat.map(f -> levels.median((u, v) -> gain((u + 1) / 2 * width, (v + 1) / 2 * height)))
                .orElseGet(levels::median));
    // A flat field evens light as the camera recorded it; a curve before it would spoil that.
    this.toneOfLit = flat.isPresent() ? tone : Optional.empty();
    this.source = toneOfLit.isPresent() ? grey : tone.map(t -> t.applied(grey)).orElse(grey);
    LightSample lit = this.source == grey ? levels : LightSample.of(this.source, this);
    this.filling = (float) lit.median();
    this.light = flat.isPresent() ? Illumination.EVEN : lit.fit();
    this.steps = new ArrayList<>(FrameSteps.of(frame));
    hue.ifPresent(h -> steps.add(h.step()));
    tone.ifPresent(t -> steps.add(t.step()));
    if (bin > 1) {
      steps.add(
          PreparationStep.of(
                  PreparationStep.Kind.AVERAGING,
                  "Averaged over "
                      + bin
                      + " x "
                      + bin
                      + " px: the photograph is sampled finer than the features need.")
              .with("bin_px", bin));
    }
    steps.add(flat.map(FlatField::step).orElseGet(light::step));
  }

  private static PlaneMap uprightToPhoto(DieLocation frame, int bin) {
    if (frame.tilted()) {
      return Homography.ofRectangle(frame.widthPx() / bin, frame.heightPx() / bin, frame.corners());
    }
    PixelPoint origin = frame.corners().get(0);
    double cos = Math.cos(Math.toRadians(frame.rotationDeg()));
    double sin = Math.sin(Math.toRadians(frame.rotationDeg()));
    return new PlaneTransform(bin * cos, -bin * sin, origin.x(), bin * sin, bin * cos, origin.y());
  }

  /**
   * Finds the die; of several the largest and most central. Where no edge is seen the frame is the
   * whole photograph, turned to the layout's own direction if that stands out.
   */
  public static DieLocation locate(PixelSource source) {
    DieFrames all = locateAll(source, EdgeTuning.DEFAULT);
    return all.die(all.usual(source.width(), source.height()));
  }

  /** Finds all dies; where no edge is seen, one frame as {@link #locate} gives it. */
  public static DieFrames locateAll(PixelSource source, EdgeTuning tuning) {
    List<DieLocation> found = new ArrayList<>();
    for (DieEdge e : new DieEdgeFinder(source, tuning).find()) {
      found.add(
          new DieLocation(
              e.realEdges(), e.corners(), e.rotationDeg(), e.edgeUncertaintyPx(), e.tilted()));
    }
    if (!found.isEmpty()) {
      return DieFrames.inReadingOrder(found);
    }
    OptionalDouble turn = LayoutDirection.of(source);
    double deg = turn.orElse(0);
    // A turn below a tenth of a pixel per tile is not worth an interpolation.
    return new DieFrames(List.of(wholeFrame(source, Math.abs(deg) < 0.15 ? 0 : deg)));
  }

  private static DieLocation wholeFrame(PixelSource source, double deg) {
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
    return new DieLocation(false, corners, deg, 0.5);
  }

  /**
   * Prepares a located die with light estimated from the picture itself.
   *
   * @param source the photograph
   * @param frame from {@link #locate}
   * @param bin photo pixels per side that are averaged into one working pixel, at least 1
   */
  public static PreparedDie of(PixelSource source, DieLocation frame, int bin) {
    return of(source, frame, bin, Optional.empty());
  }

  /**
   * Prepares a located die with light measured on an empty field.
   *
   * @param source the photograph
   * @param frame from {@link #locate}
   * @param bin photo pixels per side that are averaged into one working pixel, at least 1
   * @param flat of the same size as the photograph; empty to estimate the light from the picture
   */
  public static PreparedDie of(
      PixelSource source, DieLocation frame, int bin, Optional<FlatField> flat) {
    // A flat field was measured in brightness, so brightness is what it evens.
    Optional<GreyProjection> hue =
        flat.isPresent() ? Optional.empty() : GreyProjection.of(source, frame);
    return new PreparedDie(source, hue, MissingFields.of(source), frame, bin, flat);
  }

  /**
   * The same die averaged over other squares; what the whole photograph tells is not looked for
   * again.
   *
   * @param other photo pixels per side that are averaged into one working pixel, at least 1
   */
  public PreparedDie withBin(int other) {
    return other == bin ? this : new PreparedDie(photo, hue, missing, frame, other, flat);
  }

  /**
   * Rows of the upright die as grey values; places outside the photograph repeat its edge.
   *
   * @param y first row, may be negative
   * @param rows how many, at least 1
   * @return raster of {@link #width()} x rows
   */
  public GrayRaster rows(int y, int rows) {
    return window(0, y, width, rows);
  }

  /**
   * A rectangle of the upright die as grey values; places outside the photograph repeat its edge.
   *
   * @param x first column, may be negative
   * @param y first row, may be negative
   * @param columns how many, at least 1
   * @param rows how many, at least 1
   */
  public GrayRaster window(int x, int y, int columns, int rows) {
    double[] xs = new double[4];
    double[] ys = new double[4];
    for (int i = 0; i < 4; i++) {
      double cx = x + (i & 1) * columns;
      double cy = y + (i >> 1) * rows;
      xs[i] = uprightToPhoto.x(cx, cy);
      ys[i] = uprightToPhoto.y(cx, cy);
    }
    int margin = 4 * bin;
    int x0 = (int) Math.floor(min(xs)) - margin;
    int y0 = (int) Math.floor(min(ys)) - margin;
    int x1 = (int) Math.ceil(max(xs)) + margin;
    int y1 = (int) Math.ceil(max(ys)) + margin;
    PixelRect read = photoWindow(x0, y0, x1, y1);
    float[] grey = new float[read.width() * read.height()];
    source.readGray(read, grey);
    GrayRaster raster = GrayRaster.over(read.width(), read.height(), grey);
    PlaneTransform toWindow = new PlaneTransform(1, 0, -read.x(), 0, 1, -read.y());
    if (bin > 1) {
      int w = Math.max(1, read.width() / bin);
      int h = Math.max(1, read.height() / bin);
      double sx = w / (double) read.width();
      double sy = h / (double) read.height();
      raster = ImageFilters.reduce(raster, w, h);
      toWindow = toWindow.then(new PlaneTransform(sx, 0, 0, 0, sy, 0));
    }
    GrayRaster upright = warp(raster, toWindow, new PixelRect(x, y, columns, rows));
    if (missing.any()) {
      fill(upright, x, y);
    }
    applyLight(upright, x, y);
    return upright;
  }

  /**
   * The part of a rectangle that the photograph holds, in whole squares of averaged pixels counted
   * from the photograph's own corner, so that no band averages other pixels than the next.
   */
  private PixelRect photoWindow(int x0, int y0, int x1, int y1) {
    int[] across = span(x0, x1, source.width());
    int[] down = span(y0, y1, source.height());
    return new PixelRect(across[0], down[0], across[1] - across[0], down[1] - down[0]);
  }

  private int[] span(int from, int to, int size) {
    int squares = Math.max(1, size / bin);
    int first = Math.max(0, Math.min(Math.floorDiv(from, bin), squares - 1));
    int end = Math.max(first + 1, Math.min((to + bin - 1) / bin, squares));
    return new int[] {first * bin, Math.min(size, end * bin)};
  }

  /** Gives missing fields a usual tone, so that their edges are no texture of what is beside. */
  private void fill(GrayRaster upright, int left, int top) {
    float[] a = upright.array();
    for (int i = 0; i < a.length; i++) {
      double x = left + i % upright.width() + 0.5;
      double y = top + i / upright.width() + 0.5;
      double px = uprightToPhoto.x(x, y);
      double py = uprightToPhoto.y(x, y);
      int near = missing.blockPx() / 2;
      if (missing.at(px - near, py - near)
          || missing.at(px + near, py - near)
          || missing.at(px - near, py + near)
          || missing.at(px + near, py + near)) {
        a[i] = filling;
      }
    }
  }

  /** Turn, tilt and shift in one interpolation. */
  private GrayRaster warp(GrayRaster raster, PlaneTransform toWindow, PixelRect wanted) {
    if (uprightToPhoto instanceof Homography h) {
      return PerspectiveWarp.warp(
          raster,
          h.movedInput(wanted.x(), wanted.y()).then(toWindow),
          wanted.width(),
          wanted.height());
    }
    PlaneTransform turned = (PlaneTransform) uprightToPhoto;
    return ImageFilters.warp(
        raster,
        new PlaneTransform(1, 0, wanted.x(), 0, 1, wanted.y()).then(turned).then(toWindow),
        wanted.width(),
        wanted.height());
  }

  /** Evens the light, which is the same over blocks of a row that count from the die's edge. */
  private void applyLight(GrayRaster upright, int left, int top) {
    float[] a = upright.array();
    int w = upright.width();
    int block = 16;
    for (int r = 0; r < upright.height(); r++) {
      int x = left;
      while (x < left + w) {
        int from = Math.floorDiv(x, block) * block;
        int end = Math.min(width, from + block);
        float gain = (float) gain((from + end) / 2.0, top + r + 0.5);
        int until = Math.max(x + 1, Math.min(left + w, end));
        for (int i = r * w + x - left; i < r * w + until - left; i++) {
          a[i] *= gain;
        }
        x = until;
      }
    }
    toneOfLit.ifPresent(t -> t.apply(a, a.length));
  }

  private double gain(double x, double y) {
    return flat.isPresent()
        ? flat.get().gain(uprightToPhoto.x(x, y), uprightToPhoto.y(x, y))
        : light.gain(2 * x / width - 1, 2 * y / height - 1);
  }

  private static double min(double[] v) {
    return Math.min(Math.min(v[0], v[1]), Math.min(v[2], v[3]));
  }

  private static double max(double[] v) {
    return Math.max(Math.max(v[0], v[1]), Math.max(v[2], v[3]));
  }

  /** Where the die lies in the photograph. */
  public DieLocation frame() {
    return frame;
  }

  /** Whether the die is seen with all its four edges. */
  public boolean edgeFound() {
    return frame.edgeFound();
  }

  /**
   * Upper left, upper right, lower right, lower left of the upright die, pixel frame of the
   * photograph.
   */
  public List<PixelPoint> corners() {
    return frame.corners();
  }

  /** Rotation in the photograph, degrees, positive clockwise as seen. */
  public double rotationDeg() {
    return frame.rotationDeg();
  }

  /** Standard uncertainty of the place of one die edge, photo px. */
  public double edgeUncertaintyPx() {
    return frame.edgeUncertaintyPx();
  }

  /** Power that the greys of the photograph were raised to; 1 if they stay as they are. */
  public double toneExponent() {
    return tone.map(ToneCurve::exponent).orElse(1.0);
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
  public PlaneMap uprightToPhoto() {
    return uprightToPhoto;
  }

  /**
   * Whether the photograph shows nothing at a point of the upright raster, because a field of its
   * mosaic is missing there.
   */
  public boolean missing(double x, double y) {
    return missing.any() && missing.at(uprightToPhoto.x(x, y), uprightToPhoto.y(x, y));
  }

  /** What was done, in order. */
  public List<PreparationStep> steps() {
    return List.copyOf(steps);
  }

  /** The photograph. */
  public PixelSource source() {
    return source;
  }
}
