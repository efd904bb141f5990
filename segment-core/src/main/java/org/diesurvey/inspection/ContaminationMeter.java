package org.diesurvey.inspection;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.diesurvey.preparation.DieLocation;
import org.diesurvey.raster.GrayRaster;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.raster.PixelRect;
import org.diesurvey.vision.Components;

/**
 * What lies on the die: spots far darker (dust, burns) or far brighter (residue of upper metal,
 * glare) than anything that belongs to the layer. Judged on the reduced picture, with the fall-off
 * of the light taken out, by the layer's own range of grey.
 */
final class ContaminationMeter {
  private static final double DARK_END = 0.02;
  private static final double BRIGHT_END = 0.98;

  /** How far beyond its ends the layer's range may go, as a share of the range from the median. */
  private static final double BEYOND = 0.7;

  /** Least departure in grey: a die of low contrast must not be dirty by its own noise. */
  private static final double LEAST_GREY = 0.06;

  /** Cells of the reduced picture that a spot must have. */
  private static final int LEAST_CELLS = 4;

  private static final int MOST_SPOTS = 200;
  private static final int BINS = 2048;

  private final GrayRaster evened;
  private final boolean[] onDie;
  private final int cells;

  private ContaminationMeter(GrayRaster evened, boolean[] onDie, int cells) {
    this.evened = evened;
    this.onDie = onDie;
    this.cells = cells;
  }

  static Contamination dirt(GrayRaster reduced, int factor, DieLocation frame, LightMeter light) {
    int w = reduced.width();
    int h = reduced.height();
    GrayRaster evened = new GrayRaster(w, h);
    boolean[] onDie = new boolean[w * h];
    int cells = 0;
    // The rim of the die is neither layer nor dirt.
    double rim = 3;
    for (int y = 0; y < h; y++) {
      int[] span = BandScan.span(frame, (y + 0.5) * factor, w * factor);
      for (int x = 0; x < w; x++) {
        double left = x - span[0] / (double) factor;
        double right = span[1] / (double) factor - x;
        boolean on = !frame.edgeFound() || left > rim && right > rim + 1;
        onDie[y * w + x] = on;
        cells += on ? 1 : 0;
        double even = light.relative(2 * (x + 0.5) / w - 1, 2 * (y + 0.5) / h - 1);
        evened.set(x, y, (float) (reduced.get(x, y) / Math.max(0.2, even)));
      }
    }
    return new ContaminationMeter(evened, onDie, cells).dirt(factor);
  }

  private Contamination dirt(int factor) {
    if (cells == 0) {
      return new Contamination(0, 0, 0, List.of());
    }
    double middle = quantile(0.5);
    double dark = quantile(DARK_END);
    double bright = quantile(BRIGHT_END);
    double low = dark - Math.max(LEAST_GREY, BEYOND * (middle - dark));
    double high = bright + Math.max(LEAST_GREY, BEYOND * (bright - middle));
    List<Components.Component> darkSpots = spots(low, false);
    List<Components.Component> brightSpots = spots(high, true);
    List<Contamination.Spot> all = new ArrayList<>();
    darkSpots.forEach(c -> all.add(spot(c, factor, false)));
    brightSpots.forEach(c -> all.add(spot(c, factor, true)));
    all.sort(
        Comparator.comparingLong((Contamination.Spot s) -> -s.areaPx())
            .thenComparingInt(s -> s.boundsPx().y())
            .thenComparingInt(s -> s.boundsPx().x()));
    return new Contamination(
        share(darkSpots),
        share(brightSpots),
        all.size(),
        all.subList(0, Math.min(MOST_SPOTS, all.size())));
  }

  private double share(List<Components.Component> spots) {
    return spots.stream().mapToInt(Components.Component::cells).sum() / (double) cells;
  }

  private static Contamination.Spot spot(Components.Component c, int factor, boolean bright) {
    PixelRect b = c.bounds();
    return new Contamination.Spot(
        new PixelRect(b.x() * factor, b.y() * factor, b.width() * factor, b.height() * factor),
        (long) c.cells() * factor * factor,
        bright);
  }

  private List<Components.Component> spots(double limit, boolean above) {
    byte[] mask = new byte[onDie.length];
    float[] grey = evened.array();
    for (int i = 0; i < mask.length; i++) {
      mask[i] = (byte) (onDie[i] && (above ? grey[i] > limit : grey[i] < limit) ? 1 : 0);
    }
    return Components.label(LabelRaster.over(evened.width(), evened.height(), mask))
        .components()
        .stream()
        .filter(c -> c.cells() >= LEAST_CELLS)
        .toList();
  }

  private double quantile(double share) {
    int[] histogram = new int[BINS];
    float[] grey = evened.array();
    for (int i = 0; i < grey.length; i++) {
      if (onDie[i]) {
        histogram[Math.max(0, Math.min(BINS - 1, (int) (grey[i] / 2 * BINS)))]++;
      }
    }
    long below = 0;
    int bin = 0;
    while (bin < BINS - 1 && below + histogram[bin] <= share * cells) {
      below += histogram[bin++];
    }
    return (bin + 0.5) * 2 / BINS;
  }
}
