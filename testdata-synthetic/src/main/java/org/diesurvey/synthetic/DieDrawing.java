package org.diesurvey.synthetic;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Draws dies. */
public final class DieDrawing {
  private static final double OVERSAMPLING = 1.5;

  /** Bound on the canvas, for the sake of memory: about 400 MB of planes. */
  private static final double MOST_SAMPLES = 18e6;

  /** Share of the wide dies that take blocks of real layouts, where there are any (own choice). */
  private static final double REAL = 0.7;

  /** Share of dies with fill between the blocks. */
  private static final double FILLED = 0.2;

  private static final double WIDE_FILLED = 0.4;

  private DieDrawing() {}

  /**
   * Draws a die and photographs it.
   *
   * @param seed any number; the same seed and options give the same bytes
   * @param options what is fixed
   * @return photo, label maps and truth
   */
  public static DrawnDie draw(long seed, DrawOptions options) {
    return draw(seed, options, Optional.empty());
  }

  /**
   * Draws a die of which some blocks are those of real layouts, and photographs it.
   *
   * @param library where the blocks come from; used for dies of the wide style only
   */
  public static DrawnDie draw(long seed, DrawOptions options, Optional<LayoutLibrary> library) {
    return draw(seed, options, library, REAL);
  }

  /** Draws a die of the wide style that surely takes blocks of the library. */
  public static DrawnDie drawReal(long seed, DrawOptions options, LayoutLibrary library) {
    return draw(seed, options, Optional.of(library), 1);
  }

  private static DrawnDie draw(
      long seed, DrawOptions options, Optional<LayoutLibrary> library, double share) {
    Dice dice = new Dice(seed);
    boolean showpiece = options.style() == DrawOptions.Style.SHOWPIECE;
    Framing framing = Framing.draw(dice.child("framing"), options);
    Technology tech =
        Technology.draw(
            dice.child("technology"),
            Math.max(
                options.finestNodeNm(),
                Math.min(options.coarsestNodeNm(), framing.coarsestNodeNm())),
            Math.min(
                options.coarsestNodeNm(), Math.max(options.finestNodeNm(), framing.finestNodeNm())),
            showpiece);
    double pxPerUm = 1 / framing.umPerPx();
    Dice real = dice.child("real");
    Optional<LayoutChoice> choice =
        options.style().wide() && real.chance(share)
            ? library
                .filter(l -> !l.blocks().isEmpty())
                .map(l -> LayoutChoice.draw(real, l, pxPerUm))
            : Optional.empty();
    Floorplan plan =
        Floorplan.draw(
            tech,
            dice.child("floorplan"),
            framing.die().widthUm(),
            framing.die().heightUm(),
            options.style(),
            choice);
    Dice aim = dice.child("aim");
    boolean atEdge = options.framing() == DrawOptions.Framing.ANY && aim.chance(0.15);
    PointUm target =
        atEdge
            ? new PointUm(
                aim.chance(0.5) ? 0 : aim.uniform(0, plan.die.widthUm()),
                aim.chance(0.5) ? 0 : aim.uniform(0, plan.die.heightUm()))
            : plan.pointOfInterest(aim);
    framing = framing.centredOn(target, !atEdge);
    Optics optics =
        Optics.draw(
            dice.child("optics"),
            framing.umPerPx(),
            options.severity(),
            tech.reflectance(),
            showpiece);
    Canvas canvas =
        choice.isPresent()
            ? canvas(framing, 1, tech.reflectance())
            : canvas(framing, optics, tech.reflectance());
    List<BlockTruth> blocks = paint(canvas, plan, tech, dice.child("paint"), options.style());
    DieTruth truth =
        new DieTruth(
            seed,
            framing.umPerPx(),
            framing.rotationDeg(),
            plan.die.widthUm(),
            plan.die.heightUm(),
            framing.wholeDie(),
            framing.umToPx(),
            choice.map(LayoutChoice::technology).orElse(tech.name()),
            tech.nodeNm(),
            optics,
            blocks,
            seen(plan.padCentres(), framing));
    return new Exposure(
            canvas, framing, tech.reflectance(), optics, dice.child("exposure"), options.severity())
        .take(truth);
  }

  /** The places that lie in the photo: what nobody can see is no truth of it. */
  private static List<PointUm> seen(List<PointUm> places, Framing framing) {
    UmToPx map = framing.umToPx();
    return places.stream()
        .filter(p -> map.columnPx(p) >= 0 && map.columnPx(p) < framing.widthPx())
        .filter(p -> map.rowPx(p) >= 0 && map.rowPx(p) < framing.heightPx())
        .toList();
  }

  /** A canvas for this photo; layers that do not show are left out. */
  static Canvas canvas(Framing framing, Optics optics, Reflectance reflectance) {
    return canvas(framing, oversampling(optics, framing), reflectance);
  }

  private static Canvas canvas(Framing framing, double oversampling, Reflectance reflectance) {
    Canvas canvas = new Canvas(framing.windowUm(), oversampling / framing.umPerPx());
    if (reflectance.poly().green() == 0) {
      canvas.mute(Layer.POLY);
    }
    if (reflectance.contact().green() == 0) {
      canvas.mute(Layer.CONTACT);
    }
    return canvas;
  }

  /**
   * Canvas samples per photo pixel. Where the optics resolve more than the camera samples and the
   * die is turned, the moire of fine lattices depends on where the photo's own pixels lie.
   */
  private static double oversampling(Optics optics, Framing framing) {
    boolean undersampled = optics.blurUm(1) < 0.5 * framing.umPerPx();
    if (!undersampled || Math.abs(framing.rotationDeg()) < 0.3) {
      return 1;
    }
    double pixels = (double) framing.widthPx() * framing.heightPx();
    double most = Math.sqrt(MOST_SAMPLES / pixels);
    return most < 1.15 ? 1 : Math.min(OVERSAMPLING, most);
  }

  private static List<BlockTruth> paint(
      Canvas canvas, Floorplan plan, Technology tech, Dice dice, DrawOptions.Style style) {
    boolean showpiece = style == DrawOptions.Style.SHOWPIECE;
    Pen die = Pen.on(canvas);
    List<BlockTruth> truths = new ArrayList<>();
    canvas.label(SurfaceLabel.SEAL_RING, plan.die);
    canvas.label(SurfaceLabel.EMPTY, plan.sealed);
    Dice tiles = dice.child("tiles");
    boolean tiled = !showpiece && tiles.chance(style.wide() ? WIDE_FILLED : FILLED);
    if (tiled) {
      plan.fillGround(die, tiles);
    }
    double clearance = tiles.chance(0.7) ? tiles.uniform(0.5, 6) : tiles.logUniform(6, 40);
    SealRing.paint(die, plan.die, plan.sealed.xUm(), dice.child("seal"));
    plan.padRing.ifPresent(
        ring -> {
          ring.paint(canvas, tiled);
          truths.add(
              new BlockTruth(
                  "PAD",
                  SurfaceLabel.PAD_RING,
                  "pad ring",
                  ring.outer(),
                  List.of(ring.inner()),
                  List.of(),
                  0,
                  0,
                  0,
                  0,
                  false));
          canvas.label(SurfaceLabel.EMPTY, ring.inner());
        });
    double halo = tech.rowHeightUm() * dice.logUniform(0.3, 3);
    List<RectUm> holes = plan.blocks.stream().map(b -> b.rect().grown(halo)).toList();
    int n = 0;
    for (LogicArea area : plan.logic) {
      if (tiled) {
        canvas.clear(area.area().grown(clearance));
      }
      long nand2 = area.paint(die, holes);
      List<RectUm> own = holes.stream().filter(r -> r.overlaps(area.area())).toList();
      truths.add(
          new BlockTruth(
              "L" + (++n),
              SurfaceLabel.LOGIC,
              "standard-cell logic",
              area.rows(),
              own,
              List.of(),
              0,
              nand2,
              0,
              0,
              false));
    }
    for (StampedLogic area : plan.stamped) {
      if (tiled) {
        canvas.clear(area.area().grown(clearance));
      }
      area.paint(die, holes);
      truths.add(
          new BlockTruth(
              "L" + (++n),
              SurfaceLabel.LOGIC,
              "standard-cell logic of a real layout",
              area.area(),
              holes.stream().filter(r -> r.overlaps(area.area())).toList(),
              List.of(),
              0,
              0,
              0,
              0,
              false));
    }
    for (RectUm r : plan.filled) {
      Devices.fill(die.at(r.xUm(), r.yUm()), dice.child("fill"), r.widthUm(), r.heightUm());
    }
    for (Block b : plan.blocks) {
      if (tiled) {
        canvas.clear(b.rect().grown(clearance));
      }
      b.painter().paint(die);
      truths.add(b.truth());
    }
    Dice marking = dice.child("marking");
    if (marking.chance(0.3)) {
      Marking.paintOnDie(die, plan, marking);
    }
    double imprint = dice.child("bumps").signed(0.15) * tech.reflectance().field().green();
    for (RectUm b : plan.bumps) {
      double weight = imprint / tech.reflectance().well().green();
      Devices.imprint(die, b, weight);
    }
    Dice metal = dice.child("metal");
    if (!showpiece && metal.chance(0.08)) {
      MetalRemains.paint(die, plan, metal);
    }
    SealRing.chip(canvas, plan.die, dice.child("chips"));
    return truths;
  }
}
