package org.diesurvey.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.diesurvey.estimates.AmountKind;
import org.diesurvey.estimates.BlockArea;
import org.diesurvey.estimates.DieEstimator;
import org.diesurvey.estimates.DieEvidence;
import org.diesurvey.estimates.DieTotal;
import org.diesurvey.estimates.LogicBlock;
import org.diesurvey.estimates.MemoryBlock;
import org.diesurvey.estimates.MemoryKind;
import org.diesurvey.scoring.EstimateCase;
import org.diesurvey.synthetic.BlockTruth;
import org.diesurvey.synthetic.DieTruth;
import org.diesurvey.synthetic.DrawnDie;
import org.diesurvey.synthetic.RectUm;
import org.diesurvey.synthetic.SurfaceLabel;

/** Estimates of a drawn die from its true areas and its node alone. */
final class DrawnAreas {
  private static final double EDGE = 0.005;
  private static final double SCALE = 0.002;

  private DrawnAreas() {}

  static List<EstimateCase> cases(DrawnDie die, DieEstimator estimator) {
    DieTruth truth = die.truth();
    double arrays = 0;
    double macros = 0;
    for (BlockTruth b : truth.blocks()) {
      for (RectUm r : b.arraysUm()) {
        arrays += r.widthUm() * r.heightUm();
      }
      macros += b.bits() > 0 ? b.outlineUm().widthUm() * b.outlineUm().heightUm() : 0;
    }
    double logic = 0;
    for (byte code : die.surface()) {
      logic += code == SurfaceLabel.LOGIC ? truth.umPerPx() * truth.umPerPx() : 0;
    }
    List<MemoryBlock> memories =
        arrays == 0
            ? List.of()
            : List.of(
                new MemoryBlock(
                    "MEM1",
                    new BlockArea(macros, EDGE),
                    Optional.of(new BlockArea(arrays, EDGE)),
                    List.of(),
                    MemoryKind.STATIC,
                    OptionalInt.empty()));
    List<LogicBlock> rows =
        logic == 0
            ? List.of()
            : List.of(new LogicBlock("LOG1", new BlockArea(logic, EDGE), List.of()));
    List<EstimateCase> cases = new ArrayList<>();
    for (DieTotal t :
        estimator
            .estimate(
                new DieEvidence(
                    memories,
                    rows,
                    truth.umPerPx(),
                    SCALE,
                    OptionalDouble.of(truth.nodeNm()),
                    true))
            .totals()) {
      double amount =
          t.kind() == AmountKind.BITS
              ? truth.bits()
              : t.kind() == AmountKind.NAND2 ? truth.nand2Equivalents() : 0;
      if (amount > 0) {
        cases.add(
            new EstimateCase(
                "die-" + truth.seed(),
                EstimateCase.Basis.TRUE_ARRAYS,
                t.kind(),
                amount,
                t.amount()));
      }
    }
    return cases;
  }
}
