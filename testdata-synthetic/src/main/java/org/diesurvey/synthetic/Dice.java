package org.diesurvey.synthetic;

import java.util.SplittableRandom;

/**
 * Seeded draws. A named child depends only on its parent's seed and its name, so that a change in
 * one part of a die leaves the other parts as they were.
 */
final class Dice {
  private static final long GOLDEN = 0x9E3779B97F4A7C15L;
  private final long seed;
  private final SplittableRandom random;

  Dice(long seed) {
    this.seed = seed;
    this.random = new SplittableRandom(seed);
  }

  Dice child(String name) {
    return new Dice(mixed(seed + GOLDEN * (name.hashCode() | 1L)));
  }

  Dice child(String name, int index) {
    return new Dice(mixed(seed + GOLDEN * (name.hashCode() | 1L)) + mixed(index + 77L));
  }

  private static long mixed(long z) {
    long a = (z ^ (z >>> 30)) * 0xBF58476D1CE4E5B9L;
    long b = (a ^ (a >>> 27)) * 0x94D049BB133111EBL;
    return b ^ (b >>> 31);
  }

  long bits() {
    return random.nextLong();
  }

  double uniform(double low, double high) {
    return low + (high - low) * random.nextDouble();
  }

  double logUniform(double low, double high) {
    return StrictMath.exp(uniform(StrictMath.log(low), StrictMath.log(high)));
  }

  /** Uniform integer, both ends included. */
  int between(int low, int high) {
    return high <= low ? low : low + random.nextInt(high - low + 1);
  }

  boolean chance(double probability) {
    return random.nextDouble() < probability;
  }

  double signed(double magnitude) {
    return chance(0.5) ? magnitude : -magnitude;
  }

  /** Normal deviate, mean 0 and standard deviation 1 (Box and Muller 1958). */
  double normal() {
    double u = 1.0 - random.nextDouble();
    double v = random.nextDouble();
    return StrictMath.sqrt(-2.0 * StrictMath.log(u)) * StrictMath.cos(2.0 * Math.PI * v);
  }

  @SafeVarargs
  final <T> T pick(T... choices) {
    return choices[random.nextInt(choices.length)];
  }

  int pickInt(int... choices) {
    return choices[random.nextInt(choices.length)];
  }

  /** Index drawn with the given weights. */
  int weighted(double... weights) {
    double sum = 0;
    for (double w : weights) {
      sum += w;
    }
    double at = random.nextDouble() * sum;
    for (int i = 0; i < weights.length; i++) {
      at -= weights[i];
      if (at < 0) {
        return i;
      }
    }
    return weights.length - 1;
  }
}
