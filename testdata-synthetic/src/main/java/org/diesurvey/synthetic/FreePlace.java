package org.diesurvey.synthetic;

import java.util.List;
import java.util.Optional;

/** Finds room for a block. */
final class FreePlace {
  private FreePlace() {}

  /**
   * A place in the core that keeps its distance: in a corner, at an edge, beside a block, or
   * anywhere.
   */
  static Optional<RectUm> find(Dice d, RectUm core, List<Block> blocks, RectUm need, double gap) {
    double w = need.widthUm();
    double h = need.heightUm();
    double roomX = core.widthUm() - w;
    double roomY = core.heightUm() - h;
    if (roomX < 0 || roomY < 0) {
      return Optional.empty();
    }
    for (int attempt = 0; attempt < 60; attempt++) {
      double x = core.xUm() + roomX * d.uniform(0, 1);
      double y = core.yUm() + roomY * d.uniform(0, 1);
      switch (d.weighted(2, 2, 2, 1)) {
        case 0 -> {
          x = core.xUm() + (d.chance(0.5) ? 0 : roomX);
          y = core.yUm() + (d.chance(0.5) ? 0 : roomY);
        }
        case 1 -> {
          if (d.chance(0.5)) {
            x = core.xUm() + (d.chance(0.5) ? 0 : roomX);
          } else {
            y = core.yUm() + (d.chance(0.5) ? 0 : roomY);
          }
        }
        case 2 -> {
          if (!blocks.isEmpty()) {
            RectUm b = blocks.get(d.between(0, blocks.size() - 1)).rect();
            if (d.chance(0.5)) {
              x = d.chance(0.5) ? b.rightUm() + gap : b.xUm() - gap - w;
              y = d.chance(0.5) ? b.yUm() : b.bottomUm() - h;
            } else {
              x = d.chance(0.5) ? b.xUm() : b.rightUm() - w;
              y = d.chance(0.5) ? b.bottomUm() + gap : b.yUm() - gap - h;
            }
          }
        }
        default -> {}
      }
      RectUm at = new RectUm(x, y, w, h);
      if (!core.contains(at)) {
        continue;
      }
      RectUm wide = at.grown(gap * 0.99);
      if (blocks.stream().noneMatch(b -> b.rect().overlaps(wide))) {
        return Optional.of(at);
      }
    }
    return Optional.empty();
  }
}
