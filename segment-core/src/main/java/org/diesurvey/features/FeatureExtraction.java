package org.diesurvey.features;

import java.util.EnumMap;
import java.util.Map;
import java.util.stream.IntStream;
import org.diesurvey.features.FeatureSchema.Window;
import org.diesurvey.tiles.TileGrid;

/**
 * From the sums of tiles to their feature vectors, in bands of rows of tiles: each reads the rows
 * that its windows reach, and leaves its vectors in the store.
 */
final class FeatureExtraction {
  /** Tile rows of one band; its height changes nothing. */
  private static final int BAND_TILE_ROWS = 24;

  private static final int FURTHEST = Window.LARGE.reach;

  private final TileStatistics statistics;
  private final TileGrid grid;
  private final RowStore vectors;
  private final Map<Window, ContrastLevels> contrasts;
  private final RowsOfTheDie.Evidence evidence;

  private FeatureExtraction(TileStatistics statistics, float[][] energies, boolean inFile) {
    this.statistics = statistics;
    this.grid = statistics.grid();
    int length = grid.columns() * FeatureSchema.CURRENT.size();
    this.vectors = inFile ? RowStore.inFile(grid.rows(), length) : RowStore.of(grid.rows(), length);
    this.contrasts = new EnumMap<>(Window.class);
    for (Window w : Window.values()) {
      contrasts.put(w, ContrastLevels.of(energies, grid, w.reach));
    }
    this.evidence = new RowsOfTheDie.Evidence(grid.count());
  }

  /** Forms all features; runs on the calling thread's fork-join pool. */
  static FeatureTable of(TileStatistics statistics) {
    return of(statistics, false);
  }

  /** The same with vectors in a file whatever their number. */
  static FeatureTable of(TileStatistics statistics, boolean inFile) {
    float[][] energies = ContrastLevels.planes(statistics);
    FeatureExtraction e = new FeatureExtraction(statistics, energies, inFile);
    int bands = (e.grid.rows() + BAND_TILE_ROWS - 1) / BAND_TILE_ROWS;
    IntStream.range(0, bands)
        .parallel()
        .forEach(
            b -> e.band(b * BAND_TILE_ROWS, Math.min(e.grid.rows(), (b + 1) * BAND_TILE_ROWS)));
    return FeatureTable.of(
        statistics, e.vectors, RowsOfTheDie.of(e.evidence), ContrastLevels.single(energies));
  }

  private void band(int first, int end) {
    int columns = grid.columns();
    int low = Math.max(0, first - FURTHEST);
    int planes = SumsBand.PLANES + Evenness.PLANES;
    float[][] sums = new float[Math.min(grid.rows(), end + FURTHEST) - low][planes * columns];
    for (int r = 0; r < sums.length; r++) {
      statistics.row(low + r, SumsBand.PLANES, sums[r]);
      Evenness.write(sums[r], columns, SumsBand.PLANES * columns);
    }
    int size = FeatureSchema.CURRENT.size();
    float[][] rows = new float[end - first][columns * size];
    float[] pooled = new float[planes * columns];
    for (Window w : Window.values()) {
      int reach = w.reach;
      WindowSums window = new WindowSums(columns, planes, reach);
      float[][] across = new float[sums.length][];
      WindowFeatures features = new WindowFeatures(grid, contrasts.get(w));
      for (int r = first; r < end; r++) {
        int from = Math.max(0, r - reach);
        int to = Math.min(grid.rows() - 1, r + reach);
        for (int k = from; k <= to; k++) {
          if (across[k - low] == null) {
            across[k - low] = window.across(sums[k - low]);
          }
        }
        if (from - 1 >= low) {
          across[from - 1 - low] = null;
        }
        WindowSums.down(across, from - low, to - low, pooled);
        features.write(pooled, rows[r - first], FeatureSchema.column(w));
      }
    }
    float sampling = (float) Math.log(grid.pitchUm());
    for (int r = first; r < end; r++) {
      float[] row = rows[r - first];
      for (int c = 0; c < columns; c++) {
        row[c * size + FeatureSchema.samplingColumn()] = sampling;
        evidence.set(r * columns + c, row, c * size);
      }
      vectors.put(r, 0, row, 0, row.length);
    }
  }
}
