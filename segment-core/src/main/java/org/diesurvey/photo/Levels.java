package org.diesurvey.photo;

import org.diesurvey.Supported;

/**
 * How the stored levels of a photograph are brought to the scale of 0 to 1 on which everything else
 * works: first by the bits that the camera really filled, then, where the picture uses a small part
 * of these only, by a stretch. Any other is left as it is, to the bit.
 *
 * @param storedBits bits of a sample in the file, 8 or 16
 * @param bits of these the ones in use: 8, 10, 12, 14 or 16, the depths of cameras
 * @param low level that 1 in 1000 pixels do not exceed, as a share of the largest value of the bits
 *     in use
 * @param high level that 999 in 1000 pixels do not exceed, in the same measure
 */
@Supported
public record Levels(int storedBits, int bits, double low, double high) {
  /**
   * A picture whose highest level lies above this and whose levels span more than the next is left
   * alone: the model has seen such pictures, published photographs lie above 0.64 and 0.26.
   */
  private static final double LEAST_HIGH = 0.35;

  private static final double LEAST_SPAN = 0.12;

  /**
   * Two levels of 8 bits: a picture that uses no more has nothing to spread; what it shows, it
   * shows in hue.
   */
  private static final double NOTHING = 0.008;

  /** Where the lowest and the highest level of another picture come to lie. */
  private static final double TO_LOW = 0.05;

  private static final double TO_HIGH = 0.95;

  /** Whether the levels are used as they are stored. */
  public boolean asStored() {
    return bits == storedBits && !stretched();
  }

  /** Whether the picture uses so few of its levels that they are spread over the scale. */
  public boolean stretched() {
    return high - low >= NOTHING && (high < LEAST_HIGH || high - low < LEAST_SPAN);
  }

  /** The same bits in use, with nothing spread. */
  public Levels unspread() {
    return new Levels(storedBits, bits, 0, 1);
  }

  /** Share of the levels that the picture uses, 0 to 1. */
  public double span() {
    return high - low;
  }

  /** What a level of 0 to 1 in the bits in use is multiplied by. */
  public double gain() {
    return stretched() ? (TO_HIGH - TO_LOW) / (high - low) : 1;
  }

  /** What is added after that. */
  double offset() {
    return stretched() ? TO_LOW - low * gain() : 0;
  }

  /** Largest value of a sample in the bits in use, over the largest that the file could hold. */
  double fullScale() {
    return ((1 << bits) - 1.0) / ((1 << storedBits) - 1.0);
  }

  /** From a stored level, 0 to 1 of what the file can hold, to the level used; never negative. */
  float used(float stored) {
    return (float) Math.max(0, stored / fullScale() * gain() + offset());
  }

  /** The level used of every value that a sample can have, as 8 bits for pictures to look at. */
  byte[] table() {
    byte[] table = new byte[1 << storedBits];
    float most = table.length - 1;
    for (int i = 0; i < table.length; i++) {
      table[i] = (byte) Math.min(255, (int) (used(i / most) * 255 + 0.5f));
    }
    return table;
  }
}
