package org.diesurvey.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.diesurvey.estimates.DensityTable;
import org.diesurvey.estimates.DieEstimator;
import picocli.CommandLine.Option;

/** What estimates of bits and gates rest on. */
final class DensityOptions {
  @Option(
      names = "--node",
      paramLabel = "NM",
      description =
          "Process node in nm, if you know it. Bits and gates are estimated with it; without it"
              + " only from bit-cell lattices and rows that the photograph resolves.")
  private Double nodeNm;

  @Option(
      names = "--densities",
      paramLabel = "FILE",
      description =
          "Reference densities of your own: CSV with the columns node_nm, quantity, low, centre,"
              + " high, obtained, source. Its rows replace or join those shipped.")
  private Path file;

  private DieEstimator estimator;

  /**
   * The estimator with the user's rows; also checks the node.
   *
   * @throws org.diesurvey.DieInputException DENSITIES_INVALID or NODE_NOT_IN_TABLE
   */
  DieEstimator estimator() {
    if (nodeNm != null && !(nodeNm > 0 && Double.isFinite(nodeNm))) {
      throw new WrongOption("--node", "must be a process node in nm, was " + nodeNm);
    }
    if (estimator == null) {
      DensityTable table = DensityTable.shipped();
      if (file != null) {
        table = table.with(file);
      }
      if (nodeNm != null) {
        table.requireNode(nodeNm);
      }
      estimator = DieEstimator.of(table);
    }
    return estimator;
  }

  /** These options as words of a call of this program; the name of the file is marked. */
  List<String> words(String mark) {
    List<String> words = new ArrayList<>();
    if (nodeNm != null) {
      words.addAll(List.of("--node", nodeNm.toString()));
    }
    if (file != null) {
      words.addAll(List.of("--densities", mark + file.toAbsolutePath()));
    }
    return words;
  }

  /** The file of own densities. */
  Optional<Path> file() {
    return Optional.ofNullable(file);
  }

  /** The node stated. */
  OptionalDouble nodeNm() {
    return nodeNm == null ? OptionalDouble.empty() : OptionalDouble.of(nodeNm);
  }
}
