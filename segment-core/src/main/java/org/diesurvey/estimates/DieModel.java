package org.diesurvey.estimates;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** The models of all regions of a die, fed by the same draws. */
final class DieModel {
  private final List<MemoryModel> memories = new ArrayList<>();
  private final List<MemoryBlock> memoriesUnknown = new ArrayList<>();
  private final List<LogicBlock> logicBlocks;
  private final Optional<LogicModel> logic;
  private final int blocks;

  DieModel(DieEvidence die, DensityTable table, Extent extent) {
    int index = 0;
    for (MemoryBlock m : die.memories()) {
      Optional<MemoryModel> model = MemoryModel.of(m, index++, die, table, extent);
      model.ifPresentOrElse(memories::add, () -> memoriesUnknown.add(m));
    }
    logic = die.logic().isEmpty() ? Optional.empty() : LogicModel.of(die, table, extent);
    logicBlocks = logic.isPresent() ? die.logic() : List.of();
    blocks = die.memories().size() + die.logic().size();
  }

  /** Memory regions that can be estimated, in order. */
  List<MemoryModel> memories() {
    return memories;
  }

  /** Memory regions whose bit cell is not known at all. */
  List<MemoryBlock> memoriesUnknown() {
    return memoriesUnknown;
  }

  /** Logic regions that can be estimated, in order. */
  List<LogicBlock> logicBlocks() {
    return logicBlocks;
  }

  Optional<LogicModel> logic() {
    return logic;
  }

  Deviates deviates() {
    return new Deviates(blocks);
  }

  int regions() {
    return memories.size() + logicBlocks.size();
  }

  /** Amounts of all regions at one draw, memories first. */
  void amounts(Deviates d, double[] into) {
    int i = 0;
    for (MemoryModel m : memories) {
      into[i++] = m.bits(d);
    }
    int edge = blocks - logicBlocks.size();
    for (LogicBlock b : logicBlocks) {
      into[i++] = logic.orElseThrow().nand2(b, edge++, d);
    }
  }

  /** Sum of the memories' amounts. */
  double bits(double[] amounts) {
    double sum = 0;
    for (int i = 0; i < memories.size(); i++) {
      sum += amounts[i];
    }
    return sum;
  }

  /** Sum of the logic regions' amounts. */
  double nand2(double[] amounts) {
    double sum = 0;
    for (int i = memories.size(); i < amounts.length; i++) {
      sum += amounts[i];
    }
    return sum;
  }
}
