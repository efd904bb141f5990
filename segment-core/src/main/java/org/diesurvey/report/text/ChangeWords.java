package org.diesurvey.report.text;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.diesurvey.classification.DieClass;
import org.diesurvey.comparison.document.Change;
import org.diesurvey.comparison.document.ChangeKind;
import org.diesurvey.comparison.document.Comparison;
import org.diesurvey.comparison.document.EstimateShift;
import org.diesurvey.comparison.document.LengthUnit;
import org.diesurvey.quantity.Measured;

/** Phrases of comparisons that pages, tables and documents share. */
public final class ChangeWords {
  private static final String NONE = "\u2013";

  private ChangeWords() {}

  /** Name of a kind for people. */
  public static String name(ChangeKind kind) {
    return switch (kind) {
      case MOVED -> "moved";
      case RESIZED -> "resized";
      case CLASS -> "other class";
      case TEXTURE -> "other content";
      case NEW -> "new";
      case GONE -> "gone";
    };
  }

  /** A sign that stands for a kind where a word has no room. */
  public static String sign(ChangeKind kind) {
    return switch (kind) {
      case MOVED -> "\u2192";
      case RESIZED -> "\u2194";
      case CLASS -> "\u25D1";
      case TEXTURE -> "\u2248";
      case NEW -> "+";
      case GONE -> "\u2212";
    };
  }

  /** "6 changes: 2 moved, 1 resized, 3 new", or that there is none. */
  public static String counted(Comparison c) {
    int n = c.changes().size();
    if (n == 0) {
      return "no change that stands out from the uncertainty";
    }
    List<String> kinds = new ArrayList<>();
    for (ChangeKind kind : ChangeKind.values()) {
      long of = count(c, kind);
      if (of > 0) {
        kinds.add(of + " " + name(kind));
      }
    }
    return n + (n == 1 ? " change: " : " changes: ") + String.join(", ", kinds);
  }

  public static long count(Comparison c, ChangeKind kind) {
    return c.changes().stream().filter(x -> x.kind() == kind).count();
  }

  /** "1.2 ± 0.4 µm" or "0.00530 ± 0.00030 mm²", with a sign where it is a difference. */
  public static String size(Comparison c, Change change) {
    boolean length = change.size().measure() == Change.Measure.DISTANCE;
    String text =
        length
            ? Quantities.withUncertainty(change.size().amount(), unit(c))
            : c.unit() == LengthUnit.UM
                ? Quantities.withUncertainty(change.size().amount().times(1e-6), "mm\u00b2")
                : Quantities.withUncertainty(change.size().amount(), "px\u00b2");
    return change.size().measure() == Change.Measure.AREA_CHANGE
            && change.size().amount().value() > 0
        ? "+" + text
        : text;
  }

  /** Name of an amount for people. */
  public static String amountName(EstimateShift e) {
    return switch (e.name()) {
      case "bits" -> "Bits";
      case "nand2_equivalents" -> "Gates, NAND2-equivalents";
      case "logic_transistors" -> "Transistors of the logic";
      default -> DieWords.capital(e.name().replace('_', ' '));
    };
  }

  /** "about 96,000 (40,000 to 210,000)"; empty where nothing was estimated. */
  public static Optional<String> span(Optional<EstimateShift.Span> span) {
    return span.map(
        s ->
            "about "
                + amount(s.median())
                + " ("
                + amount(s.low())
                + " to "
                + amount(s.high())
                + ")");
  }

  public static String significance(Change change) {
    return change.size().significance() >= 1000
        ? "> 1000"
        : Quantities.fixed(change.size().significance(), 1);
  }

  /** "93 %". */
  public static String confidence(Change change) {
    return Quantities.probability(change.confidence());
  }

  public static String unit(Comparison c) {
    return c.unit().symbol().replace("um", "\u00b5m");
  }

  public static String dieClass(Optional<DieClass> dieClass) {
    return dieClass.map(DieClass::label).orElse("unclear");
  }

  /** "logic → memory array", or one of them where both are the same. */
  public static String classes(Change change) {
    String a = dieClass(change.a().dieClass());
    String b = dieClass(change.b().dieClass());
    return a.equals(b) ? a : a + " \u2192 " + b;
  }

  /** A quantity of a table; units of documents are written for people. */
  public static String quantity(Optional<Measured> m, String unit) {
    if (m.isEmpty()) {
      return NONE;
    }
    if (unit.equals("share")) {
      return Quantities.withUncertainty(m.get().times(100), "%");
    }
    return Quantities.withUncertainty(
        m.get(), unit.replace("um", "\u00b5m").replaceAll("2$", "\u00b2"));
  }

  /** The same with a sign. */
  public static String difference(Optional<Measured> m, String unit) {
    String text = quantity(m, unit);
    return m.isPresent() && m.get().value() > 0 ? "+" + text : text;
  }

  /** Count with thousands parted, to three digits. */
  static String amount(double value) {
    return String.format(
        Locale.ROOT, "%,d", Math.round(Double.parseDouble(Quantities.significant(value, 3))));
  }
}
