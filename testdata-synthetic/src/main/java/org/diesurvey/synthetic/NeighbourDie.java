package org.diesurvey.synthetic;

/** The rim of the next die on the dicing tape, beyond a street along one side. */
final class NeighbourDie {
  private final int side;
  private final double streetUm;
  private final double sealUm;
  private final double lineUm;

  NeighbourDie(Dice dice) {
    this.side = dice.between(0, 3);
    this.streetUm = dice.uniform(25, 120);
    this.sealUm = dice.uniform(10, 50);
    this.lineUm = dice.uniform(2, 10);
  }

  /** Paints the off-die pixels that belong to it; they keep their label. */
  void paint(float[] photo, byte[] labels, Framing framing, Reflectance surface, int k) {
    int w = framing.widthPx();
    float field = (float) surface.field().channel(k);
    float line = (float) Math.max(0, surface.field().channel(k) + surface.diffusion().channel(k));
    for (int i = 0; i < labels.length; i++) {
      if (labels[i] != SurfaceLabel.OFF_DIE) {
        continue;
      }
      PointUm p = framing.umToPx().pointUm(i % w + 0.5, i / w + 0.5);
      double beyond = beyond(p, framing.die()) - streetUm;
      if (beyond > 0) {
        photo[i] = beyond > sealUm && beyond < sealUm + lineUm ? line : field;
      }
    }
  }

  private double beyond(PointUm p, RectUm die) {
    return switch (side) {
      case 0 -> -p.yUm();
      case 1 -> p.xUm() - die.rightUm();
      case 2 -> p.yUm() - die.bottomUm();
      default -> -p.xUm();
    };
  }
}
