package org.diesurvey.estimates;

import java.util.List;
import org.diesurvey.Supported;

/**
 * All estimates of one die.
 *
 * @param table name of the density table
 * @param tableVersion its version
 * @param coverage of the intervals, 0.95
 * @param draws Monte Carlo draws behind the totals
 * @param totals of the die; empty where nothing could be estimated
 * @param regions estimates of single regions
 * @param nodes process nodes ranked by likelihood, those above 1 % only; empty where nothing
 *     measured speaks for any
 * @param nodeEvidence what the ranking rests on, a sentence each
 * @param notices refusals and warnings
 */
@Supported
public record DieEstimates(
    String table,
    String tableVersion,
    double coverage,
    int draws,
    List<DieTotal> totals,
    List<RegionEstimate> regions,
    List<NodeLikelihood> nodes,
    List<String> nodeEvidence,
    List<EstimateNotice> notices) {
  /** Coverage of all intervals. */
  public static final double COVERAGE = 0.95;

  /** Copies the lists. */
  public DieEstimates {
    totals = List.copyOf(totals);
    regions = List.copyOf(regions);
    nodes = List.copyOf(nodes);
    nodeEvidence = List.copyOf(nodeEvidence);
    notices = List.copyOf(notices);
  }
}
