package org.diesurvey.comparison.registration;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;
import org.diesurvey.comparison.document.Orientation;
import org.diesurvey.raster.GrayRaster;
import org.diesurvey.raster.PlaneTransform;
import org.diesurvey.vision.CrossCorrelation;
import org.diesurvey.vision.ImageFilters;

/**
 * First guesses of how one die lies on another: cross-correlation of coarse structure for all eight
 * orientations and some scale ratios.
 */
public final class CoarseSearch {
  /** Peaks kept of one orientation and ratio. */
  private static final int PEAKS = 3;

  /** Share of the smaller die that must overlap. */
  private static final double LEAST_OVERLAP = 0.25;

  private final Channels a;
  private final Channels b;
  private final double pitchUm;

  /** Pictures of a die that are correlated together. */
  private record Channels(GrayRaster contrast, GrayRaster activity) {}

  /**
   * A guess.
   *
   * @param orientation of b
   * @param ratio length in b over length in a
   * @param aToB um, y down
   * @param score of the peak: correlation sum over the root of the overlap, so that noise has the
   *     same spread for all overlaps
   */
  public record Guess(Orientation orientation, double ratio, PlaneTransform aToB, double score) {}

  /**
   * @param a whole die, pitch as given
   * @param b whole die, pitch as given
   * @param pitchUm of both
   * @param reduction px of the given rasters in one of the coarse ones
   */
  CoarseSearch(GrayRaster a, GrayRaster b, double pitchUm, int reduction) {
    this.a = channels(a, reduction);
    this.b = channels(b, reduction);
    this.pitchUm = pitchUm * reduction;
  }

  private static Channels channels(GrayRaster in, int reduction) {
    GrayRaster activity = Structure.reduced(Structure.activity(in), reduction);
    GrayRaster grey = Structure.reduced(in, reduction);
    return new Channels(
        Structure.evened(grey, 0.7, 6, 12), Structure.evened(activity, 0.7, 10, 16));
  }

  /** Best guesses over all orientations and the given ratios, best first. */
  List<Guess> guesses(List<Double> ratios) {
    record Task(Orientation o, double ratio) {}
    List<Task> tasks = new ArrayList<>();
    for (double r : ratios) {
      for (Orientation o : Orientation.values()) {
        tasks.add(new Task(o, r));
      }
    }
    List<List<Guess>> found =
        IntStream.range(0, tasks.size())
            .parallel()
            .mapToObj(i -> of(tasks.get(i).o(), tasks.get(i).ratio()))
            .toList();
    return found.stream()
        .flatMap(List::stream)
        .sorted(Comparator.comparingDouble(Guess::score).reversed())
        .toList();
  }

  private List<Guess> of(Orientation o, double ratio) {
    // Into the axes and the scale of a: place in the turned raster -> place in b.
    double w = b.contrast().width();
    double h = b.contrast().height();
    PlaneTransform linear =
        new PlaneTransform(o.xx() * ratio, -o.xy() * ratio, 0, -o.yx() * ratio, o.yy() * ratio, 0);
    int tw = (int) Math.round((o.swapsSides() ? h : w) / ratio);
    int th = (int) Math.round((o.swapsSides() ? w : h) / ratio);
    PlaneTransform turned =
        linear.then(
            new PlaneTransform(
                1,
                0,
                w / 2 - linear.x(tw / 2.0, th / 2.0),
                0,
                1,
                h / 2 - linear.y(tw / 2.0, th / 2.0)));
    GrayRaster contrast = ImageFilters.warp(b.contrast(), turned, tw, th);
    GrayRaster activity = ImageFilters.warp(b.activity(), turned, tw, th);
    GrayRaster sums = CrossCorrelation.sums(a.contrast(), contrast);
    float[] more = CrossCorrelation.sums(a.activity(), activity).array();
    float[] v = sums.array();
    int aw = a.contrast().width();
    int ah = a.contrast().height();
    double least = LEAST_OVERLAP * Math.min((double) aw * ah, (double) tw * th);
    for (int i = 0; i < v.length; i++) {
      int dx = i % sums.width() - (tw - 1);
      int dy = i / sums.width() - (th - 1);
      double ox = Math.min(aw, dx + tw) - Math.max(0, dx);
      double oy = Math.min(ah, dy + th) - Math.max(0, dy);
      double n = ox * oy;
      v[i] = n < least ? 0 : (float) ((v[i] + more[i]) / Math.sqrt(n));
    }
    List<Guess> out = new ArrayList<>();
    for (int k = 0; k < PEAKS; k++) {
      int best = 0;
      for (int i = 1; i < v.length; i++) {
        if (v[i] > v[best]) {
          best = i;
        }
      }
      double score = v[best];
      int bx = best % sums.width();
      int by = best / sums.width();
      double dx = bx - (tw - 1);
      double dy = by - (th - 1);
      PlaneTransform px = new PlaneTransform(1, 0, -dx, 0, 1, -dy).then(turned);
      PlaneTransform um =
          new PlaneTransform(px.a(), px.b(), px.c() * pitchUm, px.d(), px.e(), px.f() * pitchUm);
      out.add(new Guess(o, ratio, um, score));
      for (int y = Math.max(0, by - 3); y <= Math.min(sums.height() - 1, by + 3); y++) {
        for (int x = Math.max(0, bx - 3); x <= Math.min(sums.width() - 1, bx + 3); x++) {
          v[y * sums.width() + x] = 0;
        }
      }
    }
    return out;
  }
}
