package org.diesurvey.scoring;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import org.diesurvey.SharedData;
import org.diesurvey.estimates.AmountKind;
import org.diesurvey.estimates.BlockArea;
import org.diesurvey.estimates.DensityTable;
import org.diesurvey.estimates.DieEstimator;
import org.diesurvey.estimates.DieEvidence;
import org.diesurvey.estimates.DieTotal;
import org.diesurvey.estimates.LogicBlock;
import org.diesurvey.estimates.MemoryBlock;
import org.diesurvey.estimates.MemoryKind;
import org.diesurvey.estimates.TexturePeriod;
import org.diesurvey.quantity.Measured;
import org.junit.jupiter.api.Test;

/**
 * The inventories of dies composed of published open layouts, from their true areas, the node and
 * the row height: the models, without any photograph. With photographs and surveys: command {@code
 * check-estimates}.
 */
class OpenDieEstimatesTest {
  /** Row heights of the open cell libraries (their LEF files), um. */
  private static final Map<String, Double> ROW_UM =
      Map.of("SKY130", 2.72, "GF180MCU", 3.92, "IHP SG13G2", 3.78);

  private static List<DieTotal> totals(TrueOutlines truth) {
    BlockArea arrays = new BlockArea(truth.arraysUm2(), 0.01);
    MemoryBlock memory =
        new MemoryBlock(
            "MEM1",
            new BlockArea(truth.macrosUm2(), 0.01),
            Optional.of(arrays),
            List.of(),
            MemoryKind.STATIC,
            OptionalInt.empty());
    double rows = 2 * ROW_UM.get(truth.technology());
    LogicBlock logic =
        new LogicBlock(
            "LOG1",
            new BlockArea(truth.logicUm2(), 0.01),
            List.of(new TexturePeriod(new Measured(rows, 0.005 * rows), false, 0.5)));
    return DieEstimator.of(DensityTable.shipped())
        .estimate(
            new DieEvidence(List.of(memory), List.of(logic), 0.5, 0.002, truth.nodeNm(), true))
        .totals();
  }

  @Test
  void inventories_lieInTheIntervals_andWithinThirtyPercentInTheMedian() {
    for (AmountKind kind : List.of(AmountKind.BITS, AmountKind.NAND2)) {
      List<Double> errors = new ArrayList<>();
      for (Path file : SharedData.openDies()) {
        TrueOutlines truth = TrueOutlines.read(file);
        double amount = kind == AmountKind.BITS ? truth.bits() : truth.nand2();
        DieTotal total =
            totals(truth).stream().filter(t -> t.kind() == kind).findFirst().orElseThrow();
        assertTrue(
            total.amount().covers(amount),
            file.getFileName() + ": " + amount + " is not in " + total.amount());
        errors.add(Math.abs(total.amount().value() / amount - 1));
      }
      errors.sort(null);
      double median = errors.get(errors.size() / 2);
      assertTrue(median <= 0.30, kind + ": median error " + median);
    }
  }
}
