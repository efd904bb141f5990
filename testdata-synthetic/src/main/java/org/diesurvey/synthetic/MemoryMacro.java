package org.diesurvey.synthetic;

import java.util.ArrayList;
import java.util.List;

/**
 * A memory in its own frame: banks of cells in rows and columns, strips of periphery between them,
 * control where strips cross. Some have arrays alone, some far more periphery than array.
 */
final class MemoryMacro {
  private record Strip(
      double x,
      double y,
      boolean upright,
      boolean flipped,
      double depth,
      Axis cells,
      double pitch) {}

  private final Technology tech;
  private final Dice dice;
  private final CellArray.Rule rule;
  private final List<CellArray> arrays = new ArrayList<>();
  private final List<PointUm> places = new ArrayList<>();
  private final List<Strip> strips = new ArrayList<>();
  private final List<RectUm> controls = new ArrayList<>();
  private double width;
  private double height;
  private final boolean ringed;
  private final boolean sparse;

  private MemoryMacro(Technology tech, Dice dice, CellArray.Rule rule) {
    this.tech = tech;
    this.dice = dice;
    this.rule = rule;
    this.ringed = dice.chance(0.35);
    this.sparse = dice.chance(0.12);
  }

  /** A macro of roughly the wanted size; its true size is a whole number of cells. */
  static MemoryMacro draw(
      Dice dice, Technology tech, CellArray.Rule rule, double wantedW, double wantedH) {
    MemoryMacro m = new MemoryMacro(tech, dice, rule);
    m.plan(wantedW, wantedH);
    return m;
  }

  private void plan(double wantedW, double wantedH) {
    Dice d = dice.child("plan");
    double scale = Math.max(tech.rowHeightUm() * 2, Math.min(wantedW, wantedH));
    int nx = d.weighted(4, 5, 0.6, 1.2) + 1;
    int ny = d.weighted(6, 2.5, 0.7, 0.8) + 1;
    while (nx > 1 && wantedW / nx < 12 * rule.cell().width()) {
      nx--;
    }
    while (ny > 1 && wantedH / ny < 12 * rule.cell().height()) {
      ny--;
    }
    boolean bare = d.chance(0.14);
    double decoder = bare ? d.uniform(0.5, 3) * rule.cell().width() : depth(d, scale);
    double column = bare ? d.uniform(0.5, 3) * rule.cell().height() : depth(d, scale);
    double moat = tech.rowHeightUm() * d.uniform(0.1, 1.2);
    double rim =
        ringed ? tech.rowHeightUm() * d.uniform(0.4, 1.5) : tech.rowHeightUm() * d.uniform(0, 0.5);
    int decoders = bare ? nx - 1 : Math.max(1, nx / 2);
    int columns = bare ? ny - 1 : Math.max(1, ny / 2);
    if (sparse) {
      wantedW *= d.uniform(0.4, 0.75);
      wantedH *= d.uniform(0.4, 0.75);
    }
    double cellsW =
        Math.max(
            8 * rule.cell().width(), (wantedW - decoders * decoder - 2 * rim - nx * 2 * moat) / nx);
    double cellsH =
        Math.max(
            8 * rule.cell().height(), (wantedH - columns * column - 2 * rim - ny * 2 * moat) / ny);
    CellArray model = CellArray.within(rule, cellsW, cellsH, dice.child("model"));

    // Columns of banks: a decoder right of every first of a pair; the last odd one has its own.
    List<Double> xs = new ArrayList<>();
    List<Double> decoderXs = new ArrayList<>();
    double x = rim;
    for (int i = 0; i < nx; i++) {
      xs.add(x);
      x += model.width();
      boolean decoderHere = bare ? i + 1 < nx : i % 2 == 0 && (i + 1 < nx || nx % 2 == 1);
      if (decoderHere) {
        x += moat;
        decoderXs.add(x);
        x += decoder + moat;
      } else if (i + 1 < nx) {
        x += moat;
      }
    }
    width = x + rim;
    List<Double> ys = new ArrayList<>();
    List<Double> columnYs = new ArrayList<>();
    double y = rim;
    for (int j = 0; j < ny; j++) {
      ys.add(y);
      y += model.height();
      boolean columnHere = bare ? j + 1 < ny : j % 2 == 0 && (j + 1 < ny || ny % 2 == 1);
      if (columnHere) {
        y += moat;
        columnYs.add(y);
        y += column + moat;
      } else if (j + 1 < ny) {
        y += moat;
      }
    }
    height = y + rim;
    for (int i = 0; i < nx; i++) {
      for (int j = 0; j < ny; j++) {
        arrays.add(
            CellArray.of(
                rule,
                (int) (model.across().count()),
                model.down().count(),
                dice.child("bank", i * 31 + j)));
        places.add(new PointUm(xs.get(i), ys.get(j)));
      }
    }
    if (bare) {
      return;
    }
    for (double dx : decoderXs) {
      for (double ay : ys) {
        strips.add(new Strip(dx, ay, true, false, decoder, model.down(), rule.cell().height()));
      }
    }
    for (double cy : columnYs) {
      for (double ax : xs) {
        strips.add(new Strip(ax, cy, false, false, column, model.across(), rule.cell().width()));
      }
      for (double dx : decoderXs) {
        controls.add(new RectUm(dx, cy, decoder, column));
      }
    }
    if (sparse) {
      width *= d.uniform(1.3, 2.2);
      height *= d.uniform(1.3, 2.2);
    }
  }

  private double depth(Dice d, double scale) {
    return Math.min(scale * d.uniform(0.08, 0.35), tech.rowHeightUm() * d.logUniform(2.5, 16));
  }

  double width() {
    return width;
  }

  double height() {
    return height;
  }

  long bits() {
    return arrays.stream().mapToLong(CellArray::bits).sum();
  }

  CellArray.Rule rule() {
    return rule;
  }

  /** Bit-cell rectangles in the macro's frame. */
  List<RectUm> arrayRects() {
    List<RectUm> rects = new ArrayList<>();
    for (int i = 0; i < arrays.size(); i++) {
      rects.add(
          new RectUm(
              places.get(i).xUm(),
              places.get(i).yUm(),
              arrays.get(i).width(),
              arrays.get(i).height()));
    }
    return List.copyOf(rects);
  }

  void paint(Pen pen) {
    pen.label(SurfaceLabel.MEMORY_PERIPHERY, 0, 0, width, height);
    Dice d = dice.child("paint");
    if (d.chance(0.3)) {
      pen.rect(Layer.WELL, 0, 0, width, height, d.uniform(-0.8, 0.8));
    }
    if (ringed) {
      double line = tech.rowHeightUm() * d.uniform(0.08, 0.3);
      pen.ring(0, 0, width, height, line, 1);
    }
    for (int i = 0; i < arrays.size(); i++) {
      CellArray a = arrays.get(i);
      int turn = (i % 2 == 1 ? 1 : 0);
      a.paint(pen.block(places.get(i).xUm(), places.get(i).yUm(), a.width(), a.height(), turn));
    }
    PeripheryStrip decoder = null;
    PeripheryStrip column = null;
    boolean folded = d.chance(0.6);
    for (Strip s : strips) {
      double length = s.cells().length();
      if (s.upright()) {
        if (decoder == null) {
          decoder = PeripheryStrip.draw(dice.child("decoder"), tech, s.depth(), s.pitch());
        }
        decoder.paint(pen.block(s.x(), s.y(), length, s.depth(), 4), s.cells(), s.pitch(), folded);
      } else {
        if (column == null) {
          column = PeripheryStrip.draw(dice.child("column"), tech, s.depth(), s.pitch());
        }
        column.paint(pen.block(s.x(), s.y(), length, s.depth(), 0), s.cells(), s.pitch(), folded);
      }
    }
    double piece = tech.rowHeightUm() * d.uniform(0.4, 1.2);
    double emptiness = d.uniform(0, 0.4);
    for (RectUm c : controls) {
      new IrregularArea(tech, piece, piece * 5, 0.12, emptiness, true)
          .paint(pen.at(c.xUm(), c.yUm()), dice.child("control"), c.widthUm(), c.heightUm());
    }
    if (sparse) {
      paintScattered(pen, d.child("scattered"));
    }
  }

  /** The widely spaced strips of a generated memory, right of and below its banks. */
  private void paintScattered(Pen pen, Dice d) {
    double right =
        places.stream().mapToDouble(PointUm::xUm).max().orElse(0) + arrays.get(0).width();
    double low = places.stream().mapToDouble(PointUm::yUm).max().orElse(0) + arrays.get(0).height();
    int count = d.between(6, 22);
    for (int i = 0; i < count; i++) {
      boolean beside = d.chance(0.5);
      double w = tech.rowHeightUm() * d.logUniform(0.6, 14);
      double h = tech.rowHeightUm() * d.logUniform(0.5, 5);
      double x = beside ? right + d.uniform(0.05, 1) * (width - right) : d.uniform(0, 1) * width;
      double y = beside ? d.uniform(0, 1) * height : low + d.uniform(0.35, 1) * (height - low);
      if (x + w > width || y + h > height || x < 0 || y < 0) {
        continue;
      }
      boolean clear = true;
      for (RectUm a : arrayRects()) {
        clear &= !a.grown(1).overlaps(new RectUm(x, y, w, h));
      }
      if (!clear) {
        continue;
      }
      double pitch = tech.rowHeightUm() * d.uniform(0.3, 1.2);
      Devices.grid(pen.at(x, y), d, w, h, pitch, Math.min(h, pitch * d.uniform(0.5, 2)));
    }
  }
}
