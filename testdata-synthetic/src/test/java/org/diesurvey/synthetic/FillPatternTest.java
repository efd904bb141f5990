package org.diesurvey.synthetic;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.HashSet;
import java.util.Set;
import org.junit.jupiter.api.Test;

class FillPatternTest {
  private static final RectUm AREA = new RectUm(0, 0, 150, 100);

  private static Canvas paint(long seed) {
    Canvas canvas = new Canvas(AREA, 4);
    FillPattern.paint(Pen.on(canvas), new Dice(seed), AREA.widthUm(), AREA.heightUm());
    return canvas;
  }

  private static double cover(Canvas canvas, Layer layer) {
    double sum = 0;
    float[] plane = canvas.plane(layer);
    for (float v : plane) {
      sum += v;
    }
    return sum / plane.length;
  }

  /** Layout rules want fill to cover about 15 to 85 % (from memory); gaps and holes take more. */
  @Test
  void fillCoversAPart_ofOneLayerOrBoth_andOfManyKinds() {
    Set<Long> covers = new HashSet<>();
    int withPoly = 0;
    for (long seed = 0; seed < 40; seed++) {
      Canvas canvas = paint(seed);
      double diffusion = cover(canvas, Layer.DIFFUSION);
      double poly = cover(canvas, Layer.POLY);
      double more = Math.max(diffusion, poly);
      assertTrue(more > 0.03 && more < 1, "seed " + seed + ": " + more);
      covers.add(Math.round(more * 50));
      withPoly += poly > 0 ? 1 : 0;
    }
    assertTrue(covers.size() > 12, covers.size() + " covers among 40 patterns");
    assertTrue(withPoly > 10 && withPoly < 40, withPoly + " of 40 with polysilicon");
  }

  @Test
  void sameDice_drawTheSame() {
    for (Layer layer : Layer.values()) {
      assertArrayEquals(paint(5).plane(layer), paint(5).plane(layer));
    }
  }

  @Test
  void areaTooSmallForAnything_staysEmpty() {
    Canvas canvas = new Canvas(new RectUm(0, 0, 1, 1), 4);
    FillPattern.paint(Pen.on(canvas), new Dice(3), 1, 1);
    assertEquals(0, cover(canvas, Layer.DIFFUSION));
  }
}
