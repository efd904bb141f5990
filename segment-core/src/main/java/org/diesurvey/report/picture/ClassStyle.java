package org.diesurvey.report.picture;

import java.awt.Color;
import java.util.Locale;
import java.util.Optional;
import org.diesurvey.classification.DieClass;
import org.diesurvey.classification.UnclearReason;

/**
 * How a class looks in pictures: a colour and, as a second channel for eyes and printers that do
 * not tell colours apart, a hatch that hints at the texture itself.
 *
 * <p>Colours: the colour-blind-safe set of Okabe and Ito, "Color Universal Design" (2008), hex
 * values from memory; the assignment to classes is ours.
 *
 * @param color of outline, fill and hatch
 * @param hatch pattern
 */
public record ClassStyle(Color color, Hatch hatch) {

  /** Patterns: cells for a lattice, rows for cell rows, and so on. */
  public enum Hatch {
    CELLS,
    CROSS,
    ROWS,
    RISING,
    FALLING,
    COLUMNS
  }

  /** Look of a region or a total: empty area and area in doubt are unclear for other reasons. */
  public static ClassStyle of(DieClass dieClass, Optional<UnclearReason> reason) {
    return dieClass == DieClass.UNCLEAR && !reason.equals(Optional.of(UnclearReason.EMPTY))
        ? new ClassStyle(new Color(0x4A4A4A), Hatch.COLUMNS)
        : of(dieClass);
  }

  public static ClassStyle of(DieClass dieClass) {
    return switch (dieClass) {
      case MEMORY_ARRAY -> new ClassStyle(new Color(0xE69F00), Hatch.CELLS);
      case HARD_MACRO -> new ClassStyle(new Color(0xCC79A7), Hatch.CROSS);
      case LOGIC -> new ClassStyle(new Color(0x009E73), Hatch.ROWS);
      case PAD_RING -> new ClassStyle(new Color(0x0072B2), Hatch.RISING);
      case UNCLEAR, OFF_DIE -> new ClassStyle(new Color(0x8A8A8A), Hatch.FALLING);
    };
  }

  Color withAlpha(double alpha) {
    return new Color(
        color.getRed(), color.getGreen(), color.getBlue(), (int) Math.round(255 * alpha));
  }

  /** The colour as #RRGGBB. */
  public String hex() {
    return String.format(Locale.ROOT, "#%06X", color.getRGB() & 0xFFFFFF);
  }
}
