package org.diesurvey.estimates;

import org.diesurvey.Supported;

/**
 * One cause of an estimate's uncertainty.
 *
 * @param factor what it is
 * @param relative its standard uncertainty over the amount, from varying it alone
 * @param share of the variance of the logarithm, 0 to 1; all lines of a budget sum to 1
 * @param remedy what would shrink it, one sentence
 */
@Supported
public record BudgetLine(String factor, double relative, double share, String remedy) {}
