package org.diesurvey.preparation;

import java.util.Arrays;
import org.diesurvey.photo.PixelSource;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.raster.PixelRect;
import org.diesurvey.vision.Components;
import org.diesurvey.vision.Morphology;

/**
 * Fields of a mosaic that were never photographed: straight-edged places in which every pixel has
 * one and the same tone, mostly black. No camera sees a surface without noise; but JPEG can smooth
 * bare ground to one tone, and bond pads can be clipped, so other tones than black must fill a
 * larger place. The straight outline sets a field apart from clipped glare and dust.
 *
 * <p>Places are held on square blocks of the photograph.
 */
final class MissingFields {
  /** Side of a block, px: that of a JPEG block, in large photographs a multiple of it. */
  private static final int LEAST_BLOCK_PX = 8;

  /** Most blocks of a photograph: 300 MP in the smallest. A camera's field is far larger. */
  private static final double MOST_BLOCKS = 4.7e6;

  /** Least side of a black field, blocks. */
  private static final int LEAST_SIDE = 6;

  /** The same of any other tone. */
  private static final int LEAST_TONED_SIDE = 12;

  /** Levels of grey that are told apart. */
  private static final int LEVELS = 256;

  /** Half a level of 8 bits: pixels of one tone are equal. */
  private static final float EQUAL = 0.5f / 255;

  /** JPEG ripples this far at the edge of a field. */
  private static final float NEAR = 6f / 255;

  /** From this level on a place may be a clipped bond pad. */
  private static final int WHITE = 254;

  /** Least share of the photograph that a white field has. */
  private static final double LEAST_WHITE = 0.02;

  /** Share of the blocks of one field that have its tone. */
  private static final double ONE_TONE = 0.95;

  /** Most corners: five rectangles that lie against each other at the photograph's edge. */
  private static final int MOST_CORNERS = 12;

  /** Nicks and fringes of an outline that are smoothed, blocks to each side. */
  private static final int NICK = 1;

  private static final int FRINGE = 2;

  private final PixelSource photo;
  private final int blockPx;
  private final int columns;
  private final int rows;
  private final float[] tone;
  private final LabelRaster fields;
  private boolean any;

  private MissingFields(PixelSource photo) {
    this.photo = photo;
    double squares = photo.width() / (double) LEAST_BLOCK_PX * photo.height() / LEAST_BLOCK_PX;
    this.blockPx = LEAST_BLOCK_PX * (int) Math.max(1, Math.ceil(Math.sqrt(squares / MOST_BLOCKS)));
    this.columns = photo.width() / blockPx;
    this.rows = photo.height() / blockPx;
    this.tone = new float[Math.max(1, columns * rows)];
    this.fields = new LabelRaster(Math.max(1, columns), Math.max(1, rows));
    Arrays.fill(tone, Float.NaN);
  }

  /** Looks at one row of each row of blocks, and at all rows where a run of one tone is seen. */
  static MissingFields of(PixelSource photo) {
    MissingFields m = new MissingFields(photo);
    boolean seen = false;
    for (int r = 0; r < m.rows; r++) {
      seen |= m.flatBlocks(r);
    }
    if (seen) {
      m.keepFields();
    }
    return m;
  }

  /** Side of a block, px of the photograph. */
  int blockPx() {
    return blockPx;
  }

  /** Whether there is any. */
  boolean any() {
    return any;
  }

  /** Whether a point of the photograph, px, lies in a field. */
  boolean at(double x, double y) {
    int c = (int) Math.floor(x / blockPx);
    int r = (int) Math.floor(y / blockPx);
    // Rows and columns that fill no block belong to the last one.
    if (x < 0 || y < 0 || x >= photo.width() || y >= photo.height()) {
      return false;
    }
    return any && fields.get(Math.min(columns - 1, c), Math.min(rows - 1, r)) != 0;
  }

  /** Notes the blocks of a row of blocks that have one tone; false if there are none. */
  private boolean flatBlocks(int row) {
    int w = columns * blockPx;
    float[] line = new float[w];
    photo.readGray(new PixelRect(0, row * blockPx + blockPx / 2, w, 1), line);
    if (!hasRun(line)) {
      return false;
    }
    float[] band = new float[w * blockPx];
    photo.readGray(new PixelRect(0, row * blockPx, w, blockPx), band);
    boolean seen = false;
    for (int c = 0; c < columns; c++) {
      float first = band[c * blockPx];
      if (share(band, w, c, first, EQUAL) == 1) {
        tone[row * columns + c] = first;
        seen = true;
      }
    }
    return seen;
  }

  private boolean hasRun(float[] line) {
    int run = 0;
    for (int i = 1; i < line.length; i++) {
      run = Math.abs(line[i] - line[i - 1]) <= EQUAL ? run + 1 : 0;
      if (run >= (LEAST_SIDE - 1) * blockPx) {
        return true;
      }
    }
    return false;
  }

  private double share(float[] band, int w, int column, float of, float within) {
    int n = 0;
    for (int y = 0; y < blockPx; y++) {
      for (int x = column * blockPx; x < (column + 1) * blockPx; x++) {
        n += Math.abs(band[y * w + x] - of) <= within ? 1 : 0;
      }
    }
    return n / (double) (blockPx * blockPx);
  }

  private void keepFields() {
    int[] blocks = new int[LEVELS];
    for (float t : tone) {
      if (!Float.isNaN(t)) {
        blocks[level(t)]++;
      }
    }
    for (int level = 0; level < LEVELS; level++) {
      if (blocks[level] >= LEAST_SIDE * LEAST_SIDE) {
        keepFields(level);
      }
    }
  }

  private static int level(float tone) {
    return Math.max(0, Math.min(LEVELS - 1, Math.round(tone * (LEVELS - 1))));
  }

  private void keepFields(int level) {
    byte[] flat = new byte[columns * rows];
    for (int i = 0; i < flat.length; i++) {
      flat[i] = (byte) (!Float.isNaN(tone[i]) && level(tone[i]) == level ? 1 : 0);
    }
    LabelRaster mask =
        Morphology.open(Morphology.close(LabelRaster.over(columns, rows, flat), NICK), FRINGE);
    Components.Labelling parts = Components.label(mask);
    for (Components.Component c : parts.components()) {
      if (isField(parts.ids(), c, level)) {
        any = true;
        mark(parts.ids(), c, level / (LEVELS - 1f));
      }
    }
  }

  private boolean isField(int[] ids, Components.Component c, int level) {
    PixelRect b = c.bounds();
    int least = level == 0 ? LEAST_SIDE : LEAST_TONED_SIDE;
    return Math.min(b.width(), b.height()) >= least
        && (level < WHITE || c.cells() >= LEAST_WHITE * columns * rows)
        && like(ids, c, level) >= ONE_TONE * c.cells()
        && corners(ids, c) <= MOST_CORNERS;
  }

  private int like(int[] ids, Components.Component c, int level) {
    int n = 0;
    for (int i = 0; i < ids.length; i++) {
      n += ids[i] == c.id() && !Float.isNaN(tone[i]) && level(tone[i]) == level ? 1 : 0;
    }
    return n;
  }

  /** Corners of the outline of a component: odd numbers of its blocks around a point. */
  private int corners(int[] ids, Components.Component c) {
    PixelRect b = c.bounds();
    int corners = 0;
    for (int y = b.y(); y <= b.y() + b.height(); y++) {
      for (int x = b.x(); x <= b.x() + b.width(); x++) {
        int around = 0;
        for (int k = 0; k < 4; k++) {
          int bx = x - (k & 1);
          int by = y - (k >> 1);
          boolean in = bx >= 0 && by >= 0 && bx < columns && by < rows;
          around += in && ids[by * columns + bx] == c.id() ? 1 : 0;
        }
        corners += around & 1;
      }
    }
    return corners;
  }

  /** Marks the blocks of a field and those beside it that are half of its tone. */
  private void mark(int[] ids, Components.Component c, float of) {
    PixelRect b = c.bounds();
    int w = columns * blockPx;
    float[] band = new float[w * blockPx];
    for (int y = Math.max(0, b.y() - 1); y < Math.min(rows, b.y() + b.height() + 1); y++) {
      photo.readGray(new PixelRect(0, y * blockPx, w, blockPx), band);
      for (int x = Math.max(0, b.x() - 1); x < Math.min(columns, b.x() + b.width() + 1); x++) {
        if (ids[y * columns + x] == c.id()
            || beside(ids, c.id(), x, y) && share(band, w, x, of, NEAR) >= 0.5) {
          fields.set(x, y, 1);
        }
      }
    }
  }

  private boolean beside(int[] ids, int id, int x, int y) {
    for (int by = Math.max(0, y - 1); by <= Math.min(rows - 1, y + 1); by++) {
      for (int bx = Math.max(0, x - 1); bx <= Math.min(columns - 1, x + 1); bx++) {
        if (ids[by * columns + bx] == id) {
          return true;
        }
      }
    }
    return false;
  }
}
