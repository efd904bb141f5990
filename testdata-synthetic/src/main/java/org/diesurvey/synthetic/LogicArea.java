package org.diesurvey.synthetic;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/** Rows of cells in a rectangle, interrupted by blocks. Paints into the die frame. */
final class LogicArea {
  /** Rows lower than this show nothing of their cells but the mean brightness. */
  private static final double ROW_SHOWN_PX = 1.2;

  private final RectUm area;
  private final LogicStyle style;
  private final Dice dice;
  private final boolean turned;

  /** Mean diffusion coverage per cell, for samplings that show no more than that. */
  private final double[] covers;

  LogicArea(RectUm area, LogicStyle style, Dice dice, boolean turned) {
    this.area = area;
    this.style = style;
    this.dice = dice;
    this.turned = turned;
    this.covers = new double[style.cells().size()];
    for (int i = 0; i < covers.length; i++) {
      double cellUm2 = style.widths().get(i) * style.siteUm() * style.rowUm();
      for (Shape s : style.cells().get(i)) {
        if (s.layer() == Layer.DIFFUSION) {
          covers[i] += (s.x1() - s.x0()) * (s.y1() - s.y0()) / cellUm2;
        }
      }
    }
  }

  RectUm area() {
    return area;
  }

  LogicStyle style() {
    return style;
  }

  boolean turned() {
    return turned;
  }

  /** The part of the area that whole rows take up. */
  RectUm rows() {
    double room = turned ? area.widthUm() : area.heightUm();
    double used = 0;
    double next = 0;
    for (int row = 0; next + style.rowUm() <= room; row++) {
      double gap = (row & 1) == 1 ? style.rowGapUm() : 0;
      used = Math.min(room, next + style.rowUm() + gap);
      next += style.rowUm() + gap;
    }
    return turned
        ? new RectUm(area.xUm(), area.yUm(), used, area.heightUm())
        : new RectUm(area.xUm(), area.yUm(), area.widthUm(), used);
  }

  /**
   * Paints the rows and labels them.
   *
   * @param holes rectangles that the rows leave free, halo included
   * @return two-input NAND gates that the placed cells amount to, one per 3.5 sites of width (open
   *     130 to 45 nm libraries: 3 or 4 sites); rows outside the window are estimated from the
   *     utilisation
   */
  long paint(Pen die, List<RectUm> holes) {
    return paint(die, holes, false);
  }

  /**
   * The same, except that each row is filled as if there were no holes and then the cells that
   * touch one are left out. So a cell keeps its place whatever is put beside it.
   */
  long paintAnchored(Pen die, List<RectUm> holes) {
    return paint(die, holes, true);
  }

  private long paint(Pen die, List<RectUm> holes, boolean anchored) {
    double w = turned ? area.heightUm() : area.widthUm();
    double h = turned ? area.widthUm() : area.heightUm();
    Pen pen = die.block(area.xUm(), area.yUm(), w, h, turned ? 4 : 0);
    List<RectUm> local = new ArrayList<>();
    for (RectUm hole : holes) {
      if (hole.overlaps(area)) {
        double x = hole.xUm() - area.xUm();
        double y = hole.yUm() - area.yUm();
        local.add(
            turned
                ? new RectUm(y, x, hole.heightUm(), hole.widthUm())
                : new RectUm(x, y, hole.widthUm(), hole.heightUm()));
      }
    }
    SmoothField density =
        new SmoothField(dice.child("density"), w, h, Math.max(20, Math.min(w, h) / 4));
    List<Integer> run = new ArrayList<>();
    Dice runDice = dice.child("run");
    for (int i = 0; i < 400; i++) {
      run.add(style.choose(runDice));
    }
    long sites = 0;
    double y = 0;
    for (int row = 0; y + style.rowUm() <= h; row++) {
      if (pen.shows(0, y, w, style.rowUm())) {
        List<double[]> spans = spans(local, w, y, y + style.rowUm());
        for (double[] span : spans) {
          paintGround(pen, row, span[0], span[1], y);
          if (!anchored) {
            sites += paintCells(pen, row, span[0], span[1], y, density, run, List.of(span));
          }
        }
        if (anchored) {
          sites += paintCells(pen, row, 0, w, y, density, run, spans);
        }
      } else {
        sites += (long) (w / style.siteUm() * style.utilisation());
      }
      y += style.rowUm() + ((row & 1) == 1 ? style.rowGapUm() : 0);
    }
    return Math.round(sites / 3.5);
  }

  private static List<double[]> spans(List<RectUm> holes, double w, double top, double bottom) {
    List<double[]> free = new ArrayList<>();
    double at = 0;
    List<RectUm> hit =
        holes.stream()
            .filter(r -> r.yUm() < bottom && r.bottomUm() > top)
            .sorted(Comparator.comparingDouble(RectUm::xUm))
            .toList();
    for (RectUm r : hit) {
      if (r.xUm() > at) {
        free.add(new double[] {at, r.xUm()});
      }
      at = Math.max(at, r.rightUm());
    }
    if (at < w) {
      free.add(new double[] {at, w});
    }
    return free;
  }

  /** Label, well and rails of a stretch of a row. */
  private void paintGround(Pen pen, int row, double x0, double x1, double y) {
    double h = style.rowUm();
    double site = style.siteUm();
    double x = StrictMath.ceil(x0 / site) * site;
    Pen rowPen = pen.block(0, y, 0, h, (row & 1) == 1 ? 2 : 0);
    pen.label(SurfaceLabel.LOGIC, x0, y, x1 - x0, h + ((row & 1) == 1 ? style.rowGapUm() : 0));
    if (style.wellWeight() > 0) {
      rowPen.rect(
          Layer.WELL,
          x0,
          h * (1 - style.wellShare()),
          x1 - x0,
          h * style.wellShare(),
          style.wellWeight());
    }
    if (style.railWeight() > 0) {
      rowPen.rect(Layer.DIFFUSION, x, 0, x1 - x, style.railUm() / 2, style.railWeight());
      rowPen.rect(
          Layer.DIFFUSION,
          x,
          h - style.railUm() / 2,
          x1 - x,
          style.railUm() / 2,
          style.railWeight());
    }
  }

  /** Fills a stretch with cells; what does not lie wholly in a free part is left out. */
  private long paintCells(
      Pen pen,
      int row,
      double x0,
      double x1,
      double y,
      SmoothField density,
      List<Integer> run,
      List<double[]> free) {
    double h = style.rowUm();
    Dice d = dice.child("row", row * 131 + (int) x0);
    double site = style.siteUm();
    double x = StrictMath.ceil(x0 / site) * site;
    Pen rowPen = pen.block(0, y, 0, h, (row & 1) == 1 ? 2 : 0);
    boolean fine = h * pen.pxPerUm() > ROW_SHOWN_PX;
    long used = 0;
    int next = style.repeating() ? 0 : -1;
    double tapAt =
        style.tapEveryUm() > 0
            ? x + style.tapEveryUm() * ((row & 1) == 0 ? 0.5 : 1)
            : Double.MAX_VALUE;
    while (x < x1 - 2 * site) {
      if (x >= tapAt) {
        if (lies(x, 1.5 * site, free)) {
          rowPen.diffusion(x + 0.2 * site, h * 0.12, 0.8 * site, h * 0.25);
          rowPen.diffusion(x + 0.2 * site, h * 0.62, 0.8 * site, h * 0.25);
        }
        x += 1.5 * site;
        tapAt += style.tapEveryUm();
        continue;
      }
      double local = style.utilisation() + style.utilisationSpread() * density.at(x, y);
      int cell = next >= 0 && !d.chance(0.12) ? run.get(next % run.size()) : style.choose(d);
      next = next >= 0 ? next + 1 : next;
      double width = style.widths().get(cell) * site;
      if (next < 0 && !d.chance(local)) {
        double gap =
            site * (d.chance(style.filler().longShare()) ? d.between(10, 100) : d.between(1, 10));
        gap = Math.min(gap, x1 - x);
        if (style.fillerDiffusion() > 0 && d.chance(style.fillerDiffusion())) {
          fillers(rowPen, x, gap, h, free);
        }
        x += gap;
        continue;
      }
      if (x + width > x1) {
        x += site * 2;
        continue;
      }
      if (rowPen.shows(x, 0, width, h)) {
        boolean mirrored = next < 0 && d.chance(0.5);
        if (lies(x, width, free)) {
          Pen p = mirrored ? rowPen.block(x, 0, width, h, 1) : rowPen.at(x, 0);
          if (fine) {
            p.shapes(style.cells().get(cell), 0, 0);
          } else {
            p.rect(Layer.DIFFUSION, 0, 0, width, h, covers[cell]);
          }
        }
      }
      used += lies(x, width, free) ? style.widths().get(cell) : 0;
      x += width;
    }
    return used;
  }

  private static boolean lies(double x, double width, List<double[]> free) {
    for (double[] span : free) {
      if (x >= span[0] && x + width <= span[1] + 1e-9) {
        return true;
      }
    }
    return false;
  }

  /** Fill cells of as many sites as the largest, a half, a quarter and so on, down to 2. */
  private void fillers(Pen rowPen, double x, double gap, double h, List<double[]> free) {
    double site = style.siteUm();
    LogicStyle.Filler fill = style.filler();
    int left = (int) (gap / site);
    double at = x;
    for (int size = fill.largestSites(); size >= 2; size /= 2) {
      for (; left >= size; left -= size) {
        double w = (size - fill.gapSites()) * site;
        if (w > 0 && lies(at, size * site, free)) {
          double from = at + fill.gapSites() / 2 * site;
          rowPen.diffusion(from, h * 0.14, w, h * fill.nHeight());
          rowPen.diffusion(from, h * fill.pTop(), w, h * fill.pHeight());
        }
        at += size * site;
      }
    }
  }
}
