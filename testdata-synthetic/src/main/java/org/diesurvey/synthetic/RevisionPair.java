package org.diesurvey.synthetic;

import java.util.List;

/**
 * Two photographs of two revisions of an invented die, each taken with its own optics, or of two
 * different chips.
 *
 * <p>What both revisions share is drawn the same, cell by cell. The photographs differ in sampling,
 * turn, mirroring, light, tint, focus, noise, dirt, damage of the sawn edge, and compression. All
 * is in the ordinary range: blocks stand out, rows of cells are resolved.
 *
 * @param first photograph of the first revision with its own truth
 * @param second photograph of the second revision with its own truth, in its own die frame
 * @param truth what differs
 */
public record RevisionPair(DrawnDie first, DrawnDie second, RevisionTruth truth) {
  static final double FINEST_UM_PER_PX = 0.35;
  static final double COARSEST_UM_PER_PX = 1.2;

  private static final double LEAST_DIE_UM = 1000;
  private static final double LARGEST_DIE_UM = 4000;

  /** Rows of cells then span about three pixels or more at the coarsest sampling. */
  private static final double FINEST_NODE_NM = 130;

  private static final double COARSEST_NODE_NM = 350;

  /** Least change of brightness from field to diffusion, as a share of the field's. */
  private static final double LEAST_CONTRAST = 0.35;

  private static final double PITCH_ERROR = 0.05;

  /**
   * Draws two revisions.
   *
   * @param seed any number; the same seed and options give the same bytes
   * @param options what is fixed
   */
  public static RevisionPair draw(long seed, RevisionOptions options) {
    Dice dice = new Dice(seed).child("revisions");
    Subject subject = Subject.draw(dice, options);
    RevisionPlan plan = subject.plan(dice, options);
    Dice growth = dice.child("growth");
    boolean grows = growth.chance(options.growth()) && subject.plan.core.widthUm() > 400;
    RevisionLayout first = plan.first();
    RevisionLayout second =
        grows ? plan.secondGrown(growth.between(0, 3), growth.uniform(45, 250)) : plan.second();
    return photographed(seed, options, subject, subject, first, second, plan.changes());
  }

  /**
   * Draws two different chips of one technology and one size.
   *
   * @param seed any number
   * @param options what is fixed; numbers of changes do not matter
   */
  public static RevisionPair strangers(long seed, RevisionOptions options) {
    Dice dice = new Dice(seed).child("strangers");
    Subject one = Subject.draw(dice, options);
    Subject other = one.stranger(dice.child("other chip"));
    return photographed(
        seed,
        options,
        one,
        other,
        one.plan(dice, options.unchanged()).first(),
        other.plan(dice, options.unchanged()).first(),
        List.of());
  }

  private static RevisionPair photographed(
      long seed,
      RevisionOptions options,
      Subject one,
      Subject other,
      RevisionLayout first,
      RevisionLayout second,
      List<RevisionChange> changes) {
    Dice dice = new Dice(seed).child(one == other ? "photographs" : "strange photographs");
    int orientation = dice.between(0, 7);
    DrawnDie a = one.photograph(seed, first, 0, dice.child("first"), options);
    DrawnDie b = other.photograph(seed, second, orientation, dice.child("second"), options);
    double off = dice.uniform(-PITCH_ERROR, PITCH_ERROR);
    return new RevisionPair(
        a,
        b,
        new RevisionTruth(
            seed,
            one == other,
            changes,
            first.die(),
            second.die(),
            orientation,
            a.truth().umPerPx(),
            b.truth().umPerPx() * (1 + off)));
  }

  /** A chip before it is photographed. */
  record Subject(Technology tech, Floorplan plan, double haloUm, Dice paint) {

    static Subject draw(Dice dice, RevisionOptions options) {
      // A square die of this side just fits into the photograph at the coarsest sampling.
      double fits = COARSEST_UM_PER_PX * Math.sqrt(options.maxMegapixels() * 1e6) / 1.26;
      Dice size = dice.child("size");
      double most = Math.min(LARGEST_DIE_UM, Math.max(0.97 * LEAST_DIE_UM, fits * 0.8));
      double w = size.logUniform(Math.min(LEAST_DIE_UM, most), most);
      double h = Math.min(most, Math.max(LEAST_DIE_UM * 0.9, w * size.logUniform(0.75, 1.33)));
      return of(technology(dice), dice, w, h);
    }

    private static Subject of(Technology tech, Dice dice, double w, double h) {
      Floorplan plan = Floorplan.draw(tech, dice.child("floorplan"), w, h, false);
      double halo = tech.rowHeightUm() * dice.child("halo").logUniform(0.3, 3);
      return new Subject(tech, plan, halo, dice.child("paint"));
    }

    /** Another chip of the same technology and size. */
    Subject stranger(Dice dice) {
      return of(tech, dice, plan.die.widthUm(), plan.die.heightUm());
    }

    private static Technology technology(Dice dice) {
      for (int i = 0; ; i++) {
        Technology t =
            Technology.draw(dice.child("technology", i), COARSEST_NODE_NM, FINEST_NODE_NM, false);
        double contrast =
            Math.abs(t.reflectance().diffusion().green()) / t.reflectance().field().green();
        if (contrast >= LEAST_CONTRAST) {
          return t;
        }
      }
    }

    RevisionPlan plan(Dice dice, RevisionOptions options) {
      Dice d = dice.child("changes");
      int wanted = d.between(options.fewestChanges(), options.mostChanges());
      return RevisionPlan.of(tech, d, plan, haloUm, wanted);
    }

    DrawnDie photograph(
        long seed, RevisionLayout layout, int orientation, Dice dice, RevisionOptions options) {
      RectUm die = layout.dieAtOrigin();
      double finest =
          Math.min(
              COARSEST_UM_PER_PX,
              Math.max(
                  FINEST_UM_PER_PX, RevisionFraming.finestUmPerPx(die, options.maxMegapixels())));
      Framing framing = RevisionFraming.draw(dice.child("framing"), die, orientation, finest);
      Reflectance surface = tech.reflectance().tinted(dice.child("tint"));
      Optics optics =
          Optics.draw(dice.child("optics"), framing.umPerPx(), options.severity(), surface, false);
      Canvas canvas = DieDrawing.canvas(framing, optics, surface);
      List<BlockTruth> blocks = layout.paint(canvas, haloUm, paint);
      SealRing.chip(canvas, die, dice.child("chips"));
      DieTruth truth =
          new DieTruth(
              seed,
              framing.umPerPx(),
              framing.rotationDeg(),
              die.widthUm(),
              die.heightUm(),
              true,
              framing.umToPx(),
              tech.name(),
              tech.nodeNm(),
              optics,
              blocks,
              layout.padCentres());
      return new Exposure(
              canvas, framing, surface, optics, dice.child("exposure"), options.severity())
          .take(truth);
    }
  }
}
