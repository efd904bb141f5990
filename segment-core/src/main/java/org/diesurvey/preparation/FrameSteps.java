package org.diesurvey.preparation;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.diesurvey.preparation.edges.DieSide;

/** Says how a frame was found and what is taken out of it. */
final class FrameSteps {
  private FrameSteps() {}

  static List<PreparationStep> of(DieLocation f) {
    List<PreparationStep> out = new ArrayList<>();
    out.add(
        PreparationStep.of(PreparationStep.Kind.DIE_EDGE, found(f) + " " + turned(f))
            .with("real_edges", f.realEdges().size())
            .with("rotation_deg", f.rotationDeg())
            .with(PreparationStep.EDGE_UNCERTAINTY_PX, f.edgeUncertaintyPx()));
    if (f.tilted()) {
      double across = f.convergenceAcross();
      double down = f.convergenceDown();
      out.add(
          PreparationStep.of(
                  PreparationStep.Kind.TILT,
                  String.format(
                      Locale.ROOT,
                      "Opposite edges converge, so the die was tilted: the upper edge is %.1f %%"
                          + " %s than the lower, the left edge %.1f %% %s than the right;"
                          + " straightened in the same resampling as the rotation.",
                      100 * Math.abs(across),
                      across < 0 ? "shorter" : "longer",
                      100 * Math.abs(down),
                      down < 0 ? "shorter" : "longer"))
              .with("convergence_across", across)
              .with("convergence_down", down));
    }
    return out;
  }

  private static String found(DieLocation f) {
    if (f.edgeFound()) {
      return "Die edge found on four sides, die turned by";
    }
    if (f.partial()) {
      return "The photograph cuts the die: its edge is real on the "
          + names(f.realEdges())
          + " only; die turned by";
    }
    return "No die edge found: the whole photograph is surveyed; layout turned by";
  }

  private static String turned(DieLocation f) {
    return String.format(
        Locale.ROOT,
        f.edgeFound() || f.partial() ? "%.2f\u00b0 %s in the photograph." : "%.2f\u00b0 %s.",
        Math.abs(f.rotationDeg()),
        f.rotationDeg() < 0 ? "anticlockwise" : "clockwise");
  }

  /** "upper and left side". */
  static String names(List<DieSide> sides) {
    return sides.stream()
            .map(DieSide::word)
            .collect(Collectors.joining(sides.size() > 2 ? ", " : " and "))
        + (sides.size() == 1 ? " side" : " sides");
  }
}
