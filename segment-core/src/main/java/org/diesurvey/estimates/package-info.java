/**
 * From areas to bits and gates, with intervals that are meant to hold: reference densities, models
 * of memories and logic, Monte Carlo propagation, plausibility of process nodes.
 *
 * <p>In: areas in mm2 with the uncertainty of their edges, periods in um, the scale's relative
 * uncertainty, a process node. Out: bits, NAND2-equivalents and transistors with asymmetric 95 %
 * intervals, their origin and a budget. Everything here is an estimate. Reads no pixels. May use:
 * the packages above, Commons Math, JDK.
 */
package org.diesurvey.estimates;
