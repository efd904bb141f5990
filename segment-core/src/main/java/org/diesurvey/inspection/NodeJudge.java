package org.diesurvey.inspection;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.calibration.OpticsLimits;
import org.diesurvey.inspection.NodeVerdict.Kind;
import org.diesurvey.inspection.NodeVerdict.Limit;
import org.diesurvey.inspection.NodeVerdict.Structure;
import org.diesurvey.inspection.NodeVerdict.Visibility;

/**
 * Compares the sizes of a node's structures with the coarsest of the limits that are known.
 *
 * <p>Contrast that an ideal objective passes in incoherent light at 1/period = x times its cut-off
 * 2 NA/lambda: (2/pi) (acos x - x sqrt(1 - x2)) (Goodman, Introduction to Fourier Optics, optical
 * transfer function of a circular pupil; from memory). A period of Rayleigh's distance is x = 0.82:
 * 9 %; of 1.5 times that, x = 0.55: 34 %.
 */
final class NodeJudge {
  /** Aperture of the strongest objectives without immersion (common practice, no source). */
  static final double BEST_DRY_APERTURE = 0.95;

  /** From here on a structure is resolvable. */
  static final double CLEAR_TIMES = 1.5;

  /** Opening of a bond pad, um (common practice, no source: 40 to 100). */
  private static final double BOND_PAD_UM = 50;

  /** Side of a small hard macro, um (common practice, no source). */
  private static final double HARD_MACRO_UM = 20;

  private NodeJudge() {}

  static NodeVerdict judge(double nodeNm, InspectionSettings settings, Resolution resolution) {
    double aperture = settings.aperture().orElse(BEST_DRY_APERTURE);
    double rayleigh = OpticsLimits.rayleighUm(settings.wavelengthNm(), aperture);
    Limit limit = Limit.OPTICS;
    double limitUm = rayleigh;
    Optional<Calibration> scale = settings.scale();
    if (scale.isPresent()) {
      double pitch = scale.get().umPerPx().value();
      if (2 * pitch > limitUm) {
        limit = Limit.SAMPLING;
        limitUm = 2 * pitch;
      }
      double finest = resolution.finestPeriodPx() * pitch;
      if (!resolution.atSamplingLimit() && finest > limitUm) {
        limit = Limit.PHOTOGRAPH;
        limitUm = finest;
      }
    }
    NodeSizes.Size row = NodeSizes.rowHeight(nodeNm);
    NodeSizes.Size cell = NodeSizes.bitCellSide(nodeNm);
    List<Structure> list = new ArrayList<>();
    String practice = "common practice, no source";
    list.add(structure(Kind.BOND_PAD, BOND_PAD_UM, practice, limit, limitUm));
    list.add(structure(Kind.HARD_MACRO, HARD_MACRO_UM, practice, limit, limitUm));
    list.add(structure(Kind.CELL_ROW, row.um(), row.source(), limit, limitUm));
    list.add(structure(Kind.BIT_CELL, cell.um(), cell.source(), limit, limitUm));
    list.add(
        structure(
            Kind.GATE, nodeNm / 1000, "gate length as the node's name, no source", limit, limitUm));
    return new NodeVerdict(nodeNm, settings.aperture().isPresent() ? 0 : BEST_DRY_APERTURE, list);
  }

  private static Structure structure(
      Kind kind, double sizeUm, String source, Limit limit, double limitUm) {
    double times = sizeUm / limitUm;
    Visibility visibility =
        times >= CLEAR_TIMES
            ? Visibility.RESOLVABLE
            : times >= 1 ? Visibility.AT_THE_LIMIT : Visibility.NOT_RESOLVABLE;
    return new Structure(kind, sizeUm, source, limit, limitUm, visibility);
  }
}
