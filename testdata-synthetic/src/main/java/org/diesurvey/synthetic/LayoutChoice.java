package org.diesurvey.synthetic;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * What one die takes from a library of real blocks: one process, shrunk or grown as a whole, and
 * how its layers show. Not for several threads.
 */
final class LayoutChoice {
  /** Blocks are shrunk and grown by this: 130 and 180 nm stand in for 45 nm to about 0.6 um. */
  private static final double LEAST_SCALE = 0.35;

  private static final double MOST_SCALE = 3;

  /** Largest side of a stamp, canvas pixels; longer parts are cut. */
  private static final double MOST_STAMP_PX = 2600;

  private final LayoutLibrary library;
  private final String technology;
  private final double scale;
  private final LayoutStamp.Tones tones;
  private final double pxPerUm;
  private final boolean[] kinds = new boolean[LayoutBlock.Kind.values().length];
  private final Map<Part, LayoutStamp> stamps = new HashMap<>();

  /**
   * A part of a block.
   *
   * @param um in the layout's own measure, before it is shrunk or grown
   * @param grownBy how much larger it is drawn
   */
  record Part(LayoutBlock block, RectUm um, double grownBy) {
    double widthUm() {
      return um.widthUm() * grownBy;
    }

    double heightUm() {
      return um.heightUm() * grownBy;
    }
  }

  private LayoutChoice(
      LayoutLibrary library,
      String technology,
      double scale,
      LayoutStamp.Tones tones,
      double pxPerUm) {
    this.library = library;
    this.technology = technology;
    this.scale = scale;
    this.tones = tones;
    this.pxPerUm = pxPerUm;
  }

  /**
   * A choice for one die.
   *
   * @param pxPerUm sampling of the canvas; processes that it shows nothing of are rare
   */
  static LayoutChoice draw(Dice d, LayoutLibrary library, double pxPerUm) {
    List<String> names = List.copyOf(library.technologies());
    double[] weights = new double[names.size()];
    for (int i = 0; i < weights.length; i++) {
      String name = names.get(i);
      long blocks = library.blocks().stream().filter(b -> b.technology().equals(name)).count();
      weights[i] = Math.sqrt(blocks);
    }
    String technology = names.get(d.weighted(weights));
    double scale = StrictMath.exp(0.55 * d.normal());
    // At coarse samplings most dies are of processes that are coarse too.
    double finest = d.chance(0.8) ? 0.5 / pxPerUm : 0;
    scale = Math.max(LEAST_SCALE, Math.min(MOST_SCALE, Math.max(scale, finest)));
    LayoutChoice choice =
        new LayoutChoice(library, technology, scale, LayoutStamp.Tones.draw(d), pxPerUm);
    double[] share = {0.85, 0.8, 0.8, 0.75, 0.75, 0.7};
    for (LayoutBlock.Kind kind : LayoutBlock.Kind.values()) {
      choice.kinds[kind.ordinal()] =
          d.chance(share[kind.ordinal()]) && !library.of(kind, technology).isEmpty();
    }
    return choice;
  }

  /** The process that the blocks are of. */
  String technology() {
    return technology;
  }

  /** Whether blocks of this kind are real ones on this die. */
  boolean takes(LayoutBlock.Kind kind) {
    return kinds[kind.ordinal()];
  }

  /** A block of a kind, whole if it fits and often cut if not. */
  Optional<Part> pick(Dice d, LayoutBlock.Kind kind, double mostWidthUm, double mostHeightUm) {
    List<LayoutBlock> all = library.of(kind, technology);
    if (all.isEmpty()) {
      return Optional.empty();
    }
    LayoutBlock b = all.get(d.between(0, all.size() - 1));
    double grown = Math.max(LEAST_SCALE, Math.min(MOST_SCALE, scale * d.logUniform(0.9, 1.12)));
    return Optional.of(part(d, b, grown, mostWidthUm, mostHeightUm));
  }

  private Part part(Dice d, LayoutBlock b, double grown, double mostW, double mostH) {
    double stamp = MOST_STAMP_PX / pxPerUm;
    double w = Math.min(b.widthUm(), Math.min(stamp, mostW) / grown);
    double h = Math.min(b.heightUm(), Math.min(stamp, mostH) / grown);
    double x = (b.widthUm() - w) * d.uniform(0, 1);
    double y = (b.heightUm() - h) * d.uniform(0, 1);
    return new Part(b, new RectUm(x, y, w, h), grown);
  }

  /** A block grown so that it has a height, cut to a width from a place of its own. */
  Optional<Part> ofHeight(Dice d, LayoutBlock.Kind kind, double heightUm, double mostWidthUm) {
    List<LayoutBlock> all = library.of(kind, technology);
    if (all.isEmpty()) {
      return Optional.empty();
    }
    LayoutBlock b = all.get(d.between(0, all.size() - 1));
    return Optional.of(part(d, b, heightUm / b.heightUm(), mostWidthUm, heightUm));
  }

  LayoutStamp stamp(Part part) {
    return stamps.computeIfAbsent(
        part,
        p ->
            LayoutStamp.of(
                library.mask(p.block()),
                p.block().umPerPx(),
                p.um(),
                p.block().umPerPx() * p.grownBy() * pxPerUm,
                tones));
  }

  /** Covers a rectangle with a piece of real fill, again and again. */
  void fill(Canvas canvas, Dice d, RectUm area) {
    Part part = pick(d, LayoutBlock.Kind.FILL, area.widthUm(), area.heightUm()).orElseThrow();
    for (double y = area.yUm(); y < area.bottomUm(); y += part.heightUm()) {
      for (double x = area.xUm(); x < area.rightUm(); x += part.widthUm()) {
        if (canvas.shows(x, y, x + part.widthUm(), y + part.heightUm())) {
          stamp(part).setDown(canvas, new PointUm(x, y), 0, area);
        }
      }
    }
  }

  /** A memory or macro with its upper left corner at (x, y). */
  Block placed(String id, Part part, double x, double y, int orientation) {
    boolean turned = (orientation & 4) != 0;
    double w = turned ? part.heightUm() : part.widthUm();
    double h = turned ? part.widthUm() : part.heightUm();
    RectUm outline = new RectUm(x, y, w, h);
    Pen frame =
        Pen.on(new Canvas(new RectUm(0, 0, 1, 1), 1))
            .block(x, y, part.widthUm(), part.heightUm(), orientation);
    List<RectUm> arrays = new ArrayList<>();
    boolean memory = part.block().kind() == LayoutBlock.Kind.MEMORY;
    for (RectUm a : memory ? part.block().arrays() : List.<RectUm>of()) {
      double left = Math.max(a.xUm(), part.um().xUm()) - part.um().xUm();
      double top = Math.max(a.yUm(), part.um().yUm()) - part.um().yUm();
      double right = Math.min(a.rightUm(), part.um().rightUm()) - part.um().xUm();
      double bottom = Math.min(a.bottomUm(), part.um().bottomUm()) - part.um().yUm();
      if (right > left && bottom > top) {
        double g = part.grownBy();
        arrays.add(frame.placed(left * g, top * g, (right - left) * g, (bottom - top) * g));
      }
    }
    double cellW = part.block().bitCellWidthUm() * part.grownBy();
    double cellH = part.block().bitCellHeightUm() * part.grownBy();
    double cells = arrays.stream().mapToDouble(RectUm::areaUm2).sum();
    BlockTruth truth =
        new BlockTruth(
            id,
            memory ? SurfaceLabel.MEMORY_ARRAY : SurfaceLabel.HARD_MACRO,
            memory ? "memory of a real layout" : "hard macro of a real layout",
            outline,
            List.of(),
            arrays,
            memory && cellW > 0 ? Math.round(cells / (cellW * cellH)) : 0,
            0,
            cellW,
            cellH,
            turned);
    return new Block(truth, die -> paint(die, part, outline, arrays, orientation));
  }

  private void paint(Pen die, Part part, RectUm at, List<RectUm> arrays, int orientation) {
    Canvas canvas = die.canvas();
    if (!canvas.shows(at.xUm(), at.yUm(), at.rightUm(), at.bottomUm())) {
      return;
    }
    canvas.clear(at);
    boolean memory = part.block().kind() == LayoutBlock.Kind.MEMORY;
    // A memory whose record names no arrays is cells all over.
    byte ground =
        !memory
            ? SurfaceLabel.HARD_MACRO
            : arrays.isEmpty() ? SurfaceLabel.MEMORY_ARRAY : SurfaceLabel.MEMORY_PERIPHERY;
    canvas.label(ground, at);
    arrays.forEach(a -> canvas.label(SurfaceLabel.MEMORY_ARRAY, a));
    stamp(part).setDown(canvas, new PointUm(at.xUm(), at.yUm()), orientation, at);
  }
}
