/**
 * Draws photographs of invented dies together with their truth.
 *
 * <p>In: a seed and {@link org.diesurvey.synthetic.DrawOptions}. Out: a {@link
 * org.diesurvey.synthetic.DrawnDie} (8-bit picture, label maps) with its {@link
 * org.diesurvey.synthetic.DieTruth}. Lengths are micrometres; the die frame has its origin at the
 * upper left die corner, x right, y down. Uses the JDK and Jackson only. Same seed and options,
 * same bytes.
 */
package org.diesurvey.synthetic;
