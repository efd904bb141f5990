package org.diesurvey.inspection;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.diesurvey.photo.PixelSource;
import org.diesurvey.raster.Axis;
import org.diesurvey.raster.PixelRect;

/**
 * Finds stripes that repeat their neighbour. For sample rows all over the photograph every column
 * becomes a vector of fine detail; a column is then compared with the one w before it, for every w.
 * In a repeated stripe of width w exactly w neighbouring columns are alike at that distance and
 * those on both sides are not. A periodic layout is alike over more than w columns, or over a part
 * of the height only.
 *
 * <p>The detail is the second difference along and across, which neither a long line of the layout
 * nor the light's fall-off excites.
 */
final class RepeatFinder {
  /** Sample rows (or columns). */
  private static final int SAMPLES = 160;

  /** Distance of the pixels that are subtracted: wider than most cameras' sharpening. */
  private static final int APART_PX = 3;

  /** Narrowest and widest stripe looked for, px. */
  static final int NARROWEST_PX = 10;

  static final int WIDEST_PX = 300;

  /** Least mean correlation in the stripe; unlike layout reaches 0.2 by chance at most. */
  private static final double LEAST_LIKENESS = 0.6;

  /** How much less alike the columns on both sides must be. */
  private static final double LESS_BESIDE = 0.35;

  private final float[][] detail;

  private RepeatFinder(float[][] detail) {
    this.detail = detail;
  }

  /** The repeated stripes along columns and rows, in order of place. */
  static List<RepeatedStrip> find(PixelSource photo) {
    List<RepeatedStrip> found = new ArrayList<>();
    found.addAll(new RepeatFinder(ofColumns(photo)).strips(Axis.Y));
    found.addAll(new RepeatFinder(ofRows(photo)).strips(Axis.X));
    return found;
  }

  /** For every column its detail in the sample rows. */
  private static float[][] ofColumns(PixelSource photo) {
    int w = photo.width();
    float[][] detail = new float[w][SAMPLES];
    float[] rows = new float[w * (APART_PX + 1)];
    for (int k = 0; k < SAMPLES; k++) {
      int y = (int) ((2L * k + 1) * (photo.height() - APART_PX - 1) / (2L * SAMPLES));
      photo.readGray(new PixelRect(0, y, w, APART_PX + 1), rows);
      for (int x = APART_PX; x < w; x++) {
        int below = APART_PX * w + x;
        detail[x][k] = rows[below] - rows[x] - rows[below - APART_PX] + rows[x - APART_PX];
      }
    }
    return normed(detail);
  }

  /** For every row its detail in the sample columns. */
  private static float[][] ofRows(PixelSource photo) {
    int h = photo.height();
    int side = APART_PX + 1;
    float[][] detail = new float[h][SAMPLES];
    float[] strip = new float[side * h];
    for (int k = 0; k < SAMPLES; k++) {
      int x = (int) ((2L * k + 1) * (photo.width() - side) / (2L * SAMPLES));
      photo.readGray(new PixelRect(x, 0, side, h), strip);
      for (int y = APART_PX; y < h; y++) {
        int at = y * side;
        int above = (y - APART_PX) * side;
        detail[y][k] = strip[at + APART_PX] - strip[at] - strip[above + APART_PX] + strip[above];
      }
    }
    return normed(detail);
  }

  /** Strong edges are cut at 4 times the median detail, then every vector gets mean 0, length 1. */
  private static float[][] normed(float[][] detail) {
    float[] sample = new float[detail.length * SAMPLES / 7 + 1];
    int n = 0;
    for (int i = 0; i < detail.length * SAMPLES; i += 7) {
      sample[n++] = Math.abs(detail[i / SAMPLES][i % SAMPLES]);
    }
    Arrays.sort(sample, 0, n);
    float cut = Math.max(1e-4f, 4 * sample[n / 2]);
    for (float[] v : detail) {
      double mean = 0;
      for (int k = 0; k < SAMPLES; k++) {
        v[k] = Math.max(-cut, Math.min(cut, v[k]));
        mean += v[k] / SAMPLES;
      }
      double squares = 1e-12;
      for (int k = 0; k < SAMPLES; k++) {
        v[k] -= (float) mean;
        squares += v[k] * v[k];
      }
      float scale = (float) (1 / Math.sqrt(squares));
      for (int k = 0; k < SAMPLES; k++) {
        v[k] *= scale;
      }
    }
    return detail;
  }

  private List<RepeatedStrip> strips(Axis along) {
    int widest = Math.min(WIDEST_PX, detail.length / 4);
    List<RepeatedStrip> all =
        IntStream.rangeClosed(NARROWEST_PX, widest)
            .parallel()
            .mapToObj(w -> best(w, along))
            .flatMap(Optional::stream)
            .sorted(
                Comparator.comparingDouble((RepeatedStrip s) -> -s.likeness())
                    .thenComparingInt(RepeatedStrip::placePx))
            .toList();
    List<RepeatedStrip> kept = new ArrayList<>();
    for (RepeatedStrip s : all) {
      boolean apart =
          kept.stream()
              .allMatch(
                  k -> Math.abs(k.placePx() - s.placePx()) > Math.max(k.widthPx(), s.widthPx()));
      if (apart) {
        kept.add(s);
      }
    }
    kept.sort(Comparator.comparingInt(RepeatedStrip::placePx));
    return kept;
  }

  /** The most alike stripe of one width, if it is one. */
  private Optional<RepeatedStrip> best(int w, Axis along) {
    int n = detail.length;
    double[] running = new double[n + 1];
    for (int x = 0; x < n; x++) {
      running[x + 1] = running[x] + (x < w + APART_PX ? 0 : product(detail[x], detail[x - w]));
    }
    RepeatedStrip best = null;
    // The first columns of the repetition see across its border.
    int inner = w - APART_PX;
    int beside = Math.max(8, w / 2);
    for (int x = w + 2 * APART_PX + beside; x + w + beside < n; x++) {
      double likeness = (running[x + w] - running[x + APART_PX]) / inner;
      if (likeness < LEAST_LIKENESS || best != null && likeness <= best.likeness()) {
        continue;
      }
      double left = (running[x] - running[x - beside]) / beside;
      int after = x + w + APART_PX;
      double right = (running[Math.min(n, after + beside)] - running[after]) / beside;
      if (Math.max(left, right) <= likeness - LESS_BESIDE) {
        best = new RepeatedStrip(along, x, w, Math.min(1, likeness));
      }
    }
    return Optional.ofNullable(best);
  }

  private static float product(float[] a, float[] b) {
    float s0 = 0;
    float s1 = 0;
    float s2 = 0;
    float s3 = 0;
    for (int k = 0; k < SAMPLES; k += 4) {
      s0 += a[k] * b[k];
      s1 += a[k + 1] * b[k + 1];
      s2 += a[k + 2] * b[k + 2];
      s3 += a[k + 3] * b[k + 3];
    }
    return s0 + s1 + s2 + s3;
  }
}
