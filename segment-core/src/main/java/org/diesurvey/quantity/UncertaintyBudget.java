package org.diesurvey.quantity;

import java.util.List;
import org.apache.commons.math3.distribution.TDistribution;
import org.diesurvey.Supported;

/**
 * The independent causes of a measurement's uncertainty, side by side.
 *
 * @param components each cause; at least one
 */
@Supported
public record UncertaintyBudget(List<Component> components) {

  /**
   * One cause of uncertainty.
   *
   * @param name what it is
   * @param contribution sensitivity times standard uncertainty, in the unit of the result, not
   *     negative
   * @param degreesOfFreedom above 0; infinite where the uncertainty itself is taken as exactly
   *     known
   */
  public record Component(String name, double contribution, double degreesOfFreedom) {
    /** Rejects negative contributions and degrees of freedom of 0 or less. */
    public Component {
      if (!(contribution >= 0) || Double.isInfinite(contribution)) {
        throw new IllegalArgumentException(
            name + ": contribution must be finite and >= 0, was " + contribution);
      }
      if (!(degreesOfFreedom > 0)) {
        throw new IllegalArgumentException(
            name + ": degrees of freedom must be > 0, was " + degreesOfFreedom);
      }
    }
  }

  /** Copies the list. */
  public UncertaintyBudget {
    components = List.copyOf(components);
    if (components.isEmpty()) {
      throw new IllegalArgumentException("a budget needs at least one component");
    }
  }

  /** Root of the sum of squares of the contributions. */
  public double combined() {
    return Propagation.independent(
        components.stream().mapToDouble(Component::contribution).toArray());
  }

  /**
   * Effective degrees of freedom by Welch and Satterthwaite, JCGM 100:2008 (GUM) G.4.1, from the
   * unrounded contributions; infinite if no component has a finite number.
   */
  public double effectiveDegreesOfFreedom() {
    double sum = 0;
    for (Component c : components) {
      sum += Math.pow(c.contribution, 4) / c.degreesOfFreedom;
    }
    return sum == 0 ? Double.POSITIVE_INFINITY : Math.pow(combined(), 4) / sum;
  }

  /**
   * Coverage factor k of Student's distribution with the effective degrees of freedom truncated to
   * a whole number, JCGM 100:2008 (GUM) G.4.1 note 1 (numbering from memory).
   *
   * @param coverage probability that the interval holds the value, above 0 and below 1
   */
  public double coverageFactor(double coverage) {
    if (!(coverage > 0 && coverage < 1)) {
      throw new IllegalArgumentException("coverage must be in 0..1, was " + coverage);
    }
    double freedom = Math.max(1, Math.floor(Math.min(1e6, effectiveDegreesOfFreedom())));
    return new TDistribution(null, freedom).inverseCumulativeProbability(0.5 + coverage / 2);
  }

  /** Expanded uncertainty U = k u for a coverage probability. */
  public double expanded(double coverage) {
    return coverageFactor(coverage) * combined();
  }
}
