package org.diesurvey.estimates;

import java.util.List;
import org.diesurvey.Supported;

/**
 * An amount of the whole die.
 *
 * @param kind of what
 * @param amount with its 95 % interval; common causes are not averaged out
 * @param origin what it rests on, one sentence
 * @param budget causes of the uncertainty, largest first; empty for amounts derived from another
 */
@Supported
public record DieTotal(AmountKind kind, Estimate amount, String origin, List<BudgetLine> budget) {
  /** Copies the list. */
  public DieTotal {
    budget = List.copyOf(budget);
  }
}
