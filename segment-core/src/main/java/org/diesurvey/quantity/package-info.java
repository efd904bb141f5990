/**
 * Numbers with uncertainty: measured values, intervals, uncertainty budgets and their propagation.
 *
 * <p>In: bare numbers whose unit the caller knows. Out: values with standard uncertainty (k = 1) in
 * the same unit. Knows no pixels and no files. May use: the JDK and Commons Math.
 */
package org.diesurvey.quantity;
