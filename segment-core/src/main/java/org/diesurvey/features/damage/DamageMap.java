package org.diesurvey.features.damage;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.raster.PixelRect;
import org.diesurvey.vision.Components;
import org.diesurvey.vision.StripShape;

/**
 * Places where something hides the surface, on cells of a quarter tile. It is found from the grey
 * of the picture alone, before anything is classified.
 */
public final class DamageMap {
  /** Code of cells that the photograph does not show. */
  static final int MISSING = 3;

  private final LabelRaster codes;
  private final double cellUm;
  private final List<Place> places;

  /**
   * One connected place.
   *
   * @param kind what it looks like
   * @param bounds smallest rectangle around it, cells
   * @param cells number of cells
   * @param id its number in {@link DamageMap#placeAt}, from 1
   */
  public record Place(DamageKind kind, PixelRect bounds, int cells, int id) {}

  private final int[] ids;

  private DamageMap(LabelRaster codes, double cellUm, int[] ids, List<Place> places) {
    this.codes = codes;
    this.cellUm = cellUm;
    this.ids = ids;
    this.places = List.copyOf(places);
  }

  /**
   * From a mask of hidden cells: 0 free, 1 brighter, 2 darker than the layer, 3 missing in the
   * photograph.
   *
   * @param cellUm side of a cell, um
   */
  public static DamageMap of(LabelRaster mask, double cellUm) {
    byte[] damaged = new byte[mask.array().length];
    byte[] missing = new byte[damaged.length];
    for (int i = 0; i < damaged.length; i++) {
      missing[i] = (byte) (mask.array()[i] == MISSING ? 1 : 0);
      damaged[i] = (byte) (missing[i] == 1 ? 0 : mask.array()[i]);
    }
    Components.Labelling parts =
        Components.label(LabelRaster.over(mask.width(), mask.height(), damaged));
    List<Place> places = new ArrayList<>();
    for (Components.Component c : parts.components()) {
      places.add(new Place(kind(mask, parts, c), c.bounds(), c.cells(), c.id()));
    }
    Components.Labelling fields =
        Components.label(LabelRaster.over(mask.width(), mask.height(), missing));
    int[] ids = parts.ids();
    int before = places.size();
    for (Components.Component c : fields.components()) {
      places.add(new Place(DamageKind.MISSING, c.bounds(), c.cells(), before + c.id()));
    }
    for (int i = 0; i < ids.length; i++) {
      ids[i] = fields.ids()[i] == 0 ? ids[i] : before + fields.ids()[i];
    }
    return new DamageMap(mask, cellUm, ids, places);
  }

  /** A place much longer than wide and only a few cells wide is a scratch. */
  private static DamageKind kind(
      LabelRaster mask, Components.Labelling parts, Components.Component c) {
    int bright = 0;
    PixelRect b = c.bounds();
    for (int y = b.y(); y < b.y() + b.height(); y++) {
      for (int x = b.x(); x < b.x() + b.width(); x++) {
        boolean own = parts.ids()[y * mask.width() + x] == c.id();
        bright += own && mask.get(x, y) == 1 ? 1 : 0;
      }
    }
    StripShape strip = StripShape.of(parts, c, mask.width());
    boolean thin = strip.length() > SCRATCH_RATIO * strip.width() && strip.width() <= SCRATCH_CELLS;
    return thin
        ? DamageKind.SCRATCH
        : 2 * bright >= c.cells() ? DamageKind.BRIGHT : DamageKind.DARK;
  }

  /** Length over width from which a thin place is a scratch. */
  private static final double SCRATCH_RATIO = 6;

  /** Largest width of a scratch, cells. */
  private static final double SCRATCH_CELLS = 3.5;

  /** Cells across. */
  public int columns() {
    return codes.width();
  }

  /** Cells down. */
  public int rows() {
    return codes.height();
  }

  /** Side of a cell, um. */
  public double cellUm() {
    return cellUm;
  }

  /** All places, in scan order, missing fields last. */
  public List<Place> places() {
    return places;
  }

  /** Number of the place that a cell belongs to; 0 where the surface is free. */
  public int placeAt(int row, int column) {
    return ids[row * codes.width() + column];
  }

  /** What hides a cell, if anything. */
  public Optional<DamageKind> at(int row, int column) {
    int id = placeAt(row, column);
    return id == 0 ? Optional.empty() : Optional.of(places.get(id - 1).kind());
  }

  /** What {@link #of} was given; not to be changed. */
  public LabelRaster mask() {
    return codes;
  }
}
