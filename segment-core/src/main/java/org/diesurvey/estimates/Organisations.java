package org.diesurvey.estimates;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;

/**
 * Organisations that memories often have: a power of two of words, each a power of two of bits,
 * with a parity bit for every eight or the check bits of single-error-correcting, double-error-
 * detecting codes (7 for 32, 8 for 64). Common practice, no source. Hints only: the interval of an
 * estimate usually holds many.
 */
final class Organisations {
  private static final int MOST = 3;

  private Organisations() {}

  private record Word(int bits, String words) {}

  private static final List<Word> WORDS =
      List.of(
          new Word(8, "power of two"),
          new Word(9, "8 bits and parity"),
          new Word(39, "32 bits and 7 check bits"));

  /** The organisations nearest to the median inside the interval, nearest first. */
  static List<String> near(Estimate bits) {
    record Total(long bits, String words, double off) {}
    List<Total> all = new ArrayList<>();
    for (Word w : WORDS) {
      for (long words = 32; words <= 1L << 32; words *= 2) {
        long total = words * w.bits();
        if (bits.covers(total)) {
          all.add(new Total(total, w.words(), Math.abs(Math.log(total / bits.value()))));
        }
      }
    }
    return all.stream()
        .sorted(Comparator.comparingDouble(Total::off))
        .limit(MOST)
        .map(t -> amount(t.bits()) + " (" + t.words() + ")")
        .toList();
  }

  private static String amount(long bits) {
    if (bits < 1024) {
      return bits + " bit";
    }
    double ki = bits / 1024.0;
    return ki < 1024
        ? String.format(Locale.ROOT, "%s Kibit", DensityTable.plain(ki))
        : String.format(Locale.ROOT, "%s Mibit", DensityTable.plain(ki / 1024));
  }
}
