package org.diesurvey.preparation.edges;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.vision.Components;
import org.diesurvey.vision.Morphology;

/**
 * What lies around the die, as one colour: the cells of the overview that are joined to the
 * picture's frame and near to that colour are ground, the rest may be dies.
 */
final class Background {
  /** Thresholds that are tried, as shares of the one that parts the colours best. */
  static final List<Float> FINE = List.of(1f, 0.75f, 0.55f, 0.4f, 0.28f, 0.2f, 1.3f);

  /** Fewer of them, for grounds that are less likely. */
  static final List<Float> COARSE = List.of(1f, 0.55f, 0.28f);

  private final Overview overview;
  private final float[] colour;
  private final float[] distance;
  private final float otsu;

  Background(Overview overview, float[] colour) {
    this.overview = overview;
    this.colour = colour;
    this.distance = new float[overview.width() * overview.height()];
    for (int i = 0; i < distance.length; i++) {
      distance[i] = (float) overview.distance(i, colour);
    }
    this.otsu = otsu(distance);
  }

  /**
   * Colours that the ground may have, most likely first: the median of the whole frame, which a
   * neighbouring die along one side does not outweigh; then that of each side, for dies that the
   * photograph cuts.
   */
  static List<float[]> candidates(Overview overview) {
    int w = overview.width();
    int h = overview.height();
    int s = Math.max(2, Math.min(w, h) / 80);
    List<float[]> out = new ArrayList<>();
    out.add(median(overview, (x, y) -> x < s || y < s || x >= w - s || y >= h - s));
    out.add(median(overview, (x, y) -> y < s));
    out.add(median(overview, (x, y) -> x >= w - s));
    out.add(median(overview, (x, y) -> y >= h - s));
    out.add(median(overview, (x, y) -> x < s));
    return out;
  }

  private interface Place {
    boolean counts(int x, int y);
  }

  private static float[] median(Overview overview, Place place) {
    int w = overview.width();
    double[][] v = new double[3][w * overview.height()];
    int n = 0;
    for (int i = 0; i < v[0].length; i++) {
      if (place.counts(i % w, i / w)) {
        for (int ch = 0; ch < 3; ch++) {
          v[ch][n] = overview.plane(ch)[i];
        }
        n++;
      }
    }
    float[] colour = new float[3];
    for (int ch = 0; ch < 3; ch++) {
      colour[ch] = (float) EdgeLine.median(Arrays.copyOf(v[ch], n));
    }
    return colour;
  }

  /** The colour, red, green, blue from 0 to 1. */
  float[] colour() {
    return colour;
  }

  /**
   * Rectangles that stand on this ground, for each of several thresholds in turn.
   *
   * @param leastShare least share of the overview that one fills
   * @param thresholds {@link #FINE} or {@link #COARSE}
   */
  List<CoarseDieRectangle> rectangles(double leastShare, List<Float> thresholds) {
    List<CoarseDieRectangle> out = new ArrayList<>();
    for (float share : thresholds) {
      out.addAll(rectanglesAt(share * otsu, leastShare));
    }
    return out;
  }

  private List<CoarseDieRectangle> rectanglesAt(float threshold, double leastShare) {
    int w = overview.width();
    int h = overview.height();
    byte[] quiet = new byte[w * h];
    for (int i = 0; i < quiet.length; i++) {
      quiet[i] = (byte) (distance[i] <= threshold ? 1 : 0);
    }
    int[] around = Components.ids(Morphology.open(LabelRaster.over(w, h, quiet), 1));
    boolean[] outside = new boolean[w * h + 1];
    int margin = Math.max(1, Math.min(w, h) / 60);
    for (int y = 0; y < h; y++) {
      boolean all = y < margin || y >= h - margin;
      for (int x = 0; x < w; x++) {
        if (all || x < margin || x >= w - margin) {
          outside[around[y * w + x]] = true;
        }
      }
    }
    outside[0] = false;
    byte[] mask = new byte[w * h];
    for (int i = 0; i < mask.length; i++) {
      mask[i] = (byte) (outside[around[i]] ? 0 : 1);
    }
    Components.Labelling parts = Components.label(Morphology.open(LabelRaster.over(w, h, mask), 4));
    List<CoarseDieRectangle> out = new ArrayList<>();
    for (Components.Component c : parts.components()) {
      if (c.cells() >= 0.5 * leastShare * w * h) {
        CoarseDieRectangle.fit(parts.ids(), c, w, h, overview.factor())
            .filter(r -> r.area() >= leastShare * w * h * overview.factor() * overview.factor())
            .ifPresent(out::add);
      }
    }
    return out;
  }

  private static float otsu(float[] values) {
    int bins = 512;
    float max = 1e-6f;
    for (float v : values) {
      max = Math.max(max, v);
    }
    long[] hist = new long[bins];
    for (float v : values) {
      hist[Math.min(bins - 1, (int) (v / max * bins))]++;
    }
    double total = 0;
    for (int i = 0; i < bins; i++) {
      total += i * (double) hist[i];
    }
    double below = 0;
    double sumBelow = 0;
    double best = -1;
    int at = 0;
    for (int i = 0; i < bins - 1; i++) {
      below += hist[i];
      sumBelow += i * (double) hist[i];
      double above = values.length - below;
      if (below == 0 || above == 0) {
        continue;
      }
      double gap = sumBelow / below - (total - sumBelow) / above;
      double between = below * above * gap * gap;
      if (between > best) {
        best = between;
        at = i;
      }
    }
    return (at + 1) * max / bins;
  }
}
