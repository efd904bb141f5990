package org.diesurvey.estimates;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** The models of all regions of a die, fed by the same draws. */
final class DieModel {
  private final List<MemoryModel> memories = new ArrayList<>();
  private final List<MemoryBlock> memoriesUnknown = new ArrayList<>();
  private final List<LogicModel> logic = new ArrayList<>();
  private final int blocks;

  DieModel(DieEvidence die, DensityTable table, Extent extent) {
    int index = 0;
    for (MemoryBlock m : die.memories()) {
      Optional<MemoryModel> model = MemoryModel.of(m, index++, die, table, extent);
      model.ifPresentOrElse(memories::add, () -> memoriesUnknown.add(m));
    }
    for (LogicBlock b : die.logic()) {
      LogicModel.of(b, index++, die, table, extent).ifPresent(logic::add);
    }
    blocks = index;
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
  List<LogicModel> logic() {
    return logic;
  }

  Deviates deviates() {
    return new Deviates(blocks);
  }

  int regions() {
    return memories.size() + logic.size();
  }

  /** Amounts of all regions at one draw, memories first. */
  void amounts(Deviates d, double[] into) {
    int i = 0;
    for (MemoryModel m : memories) {
      into[i++] = m.bits(d);
    }
    for (LogicModel l : logic) {
      into[i++] = l.nand2(d);
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
