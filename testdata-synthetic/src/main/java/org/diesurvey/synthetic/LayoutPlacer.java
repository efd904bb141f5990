package org.diesurvey.synthetic;

import java.util.List;
import java.util.Optional;

/** Puts memories and macros of real layouts into the core of a floorplan. */
final class LayoutPlacer {
  private final LayoutChoice choice;
  private final RectUm core;
  private final List<Block> blocks;

  /**
   * @param blocks what is placed already; grows
   */
  LayoutPlacer(LayoutChoice choice, RectUm core, List<Block> blocks) {
    this.choice = choice;
    this.core = core;
    this.blocks = blocks;
  }

  /** Memories in families of equal ones until they take an area or nothing fits. */
  void memories(Dice d, double budgetUm2) {
    double used = 0;
    for (int family = 0; family < 14 && used < budgetUm2; family++) {
      Dice fd = d.child("real family", family);
      Optional<LayoutChoice.Part> part =
          choice.pick(
              fd,
              LayoutBlock.Kind.MEMORY,
              core.widthUm() * fd.uniform(0.2, 0.7),
              core.heightUm() * fd.uniform(0.2, 0.7));
      if (part.isPresent()) {
        used += bank(fd, "M" + (family + 1) + "x", part.get());
      }
    }
  }

  /** Equal memories side by side, mirrored in turn on some dies; returns their area. */
  private double bank(Dice d, String id, LayoutChoice.Part part) {
    int turn = d.chance(0.4) ? 4 : 0;
    double w = turn == 4 ? part.heightUm() : part.widthUm();
    double h = turn == 4 ? part.widthUm() : part.heightUm();
    double gap = d.chance(0.3) ? d.logUniform(15, 120) : d.logUniform(0.5, 20);
    int columns = d.weighted(4, 2, 1, 1, 0.5) + 1;
    int rows = d.weighted(5, 2, 1, 0.5) + 1;
    Optional<RectUm> place = Optional.empty();
    for (; columns > 0 && rows > 0; columns--, rows = Math.min(rows, columns)) {
      RectUm need = new RectUm(0, 0, columns * (w + gap) - gap, rows * (h + gap) - gap);
      place = FreePlace.find(d, core, blocks, need, d.logUniform(1, 40));
      if (place.isPresent()) {
        break;
      }
    }
    if (place.isEmpty()) {
      return 0;
    }
    boolean mirrored = d.chance(0.5);
    int own = d.between(0, 3);
    for (int i = 0; i < columns; i++) {
      for (int j = 0; j < rows; j++) {
        int flip = mirrored ? (i & 1) | ((j & 1) << 1) : 0;
        blocks.add(
            choice.placed(
                id + i + "-" + j,
                part,
                place.get().xUm() + i * (w + gap),
                place.get().yUm() + j * (h + gap),
                turn | (own ^ flip)));
      }
    }
    return columns * rows * w * h;
  }

  /** One macro, if it fits. */
  void macro(Dice d, String id, double mostUm) {
    Optional<LayoutChoice.Part> part =
        choice.pick(d, LayoutBlock.Kind.MACRO, mostUm * 1.4, mostUm * 1.4);
    if (part.isEmpty()) {
      return;
    }
    int orientation = d.between(0, 7);
    boolean turned = (orientation & 4) != 0;
    RectUm need =
        new RectUm(
            0,
            0,
            turned ? part.get().heightUm() : part.get().widthUm(),
            turned ? part.get().widthUm() : part.get().heightUm());
    FreePlace.find(d, core, blocks, need, d.uniform(1, 14))
        .ifPresent(r -> blocks.add(choice.placed(id, part.get(), r.xUm(), r.yUm(), orientation)));
  }
}
