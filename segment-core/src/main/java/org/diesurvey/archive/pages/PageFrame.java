package org.diesurvey.archive.pages;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import org.diesurvey.report.page.Html;
import org.diesurvey.report.page.PageParts;

/** What all pages of an archive share; they ask nothing of the network, by their own policy. */
final class PageFrame {
  private PageFrame() {}

  /**
   * A page.
   *
   * @param title plain text
   * @param body safe markup
   * @param script empty for none
   */
  static String page(String title, String body, String script) {
    String css = resource(PageParts.class, "page.css") + resource(PageFrame.class, "archive.css");
    return "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
        + "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none';"
        + " img-src 'self' file:; style-src "
        + Html.hashSource(css)
        + (script.isEmpty() ? "" : "; script-src " + Html.hashSource(script))
        + "; base-uri 'none'; form-action 'none'\">\n"
        + "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
        + "<meta name=\"color-scheme\" content=\"light dark\">\n<title>"
        + Html.escape(title)
        + "</title>\n<style>"
        + css
        + "</style>\n</head>\n<body>\n"
        + body
        + (script.isEmpty() ? "" : "<script>" + script + "</script>\n")
        + "</body>\n</html>\n";
  }

  static String resource(Class<?> beside, String name) {
    try (var in = beside.getResourceAsStream(name)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** "41.3 %", or a dash where nothing is known. */
  static String percent(double share) {
    return Double.isNaN(share) ? "\u2013" : String.format(Locale.ROOT, "%.1f\u00a0%%", 100 * share);
  }

  /** At most four significant digits, or a dash where nothing is known. */
  static String number(double value) {
    return Double.isNaN(value) ? "\u2013" : String.format(Locale.ROOT, "%.4g", value);
  }

  /** "2.345 ± 0.012": two digits of the uncertainty, and the value to the same place. */
  static String measured(double value, double u) {
    if (!(u > 0)) {
      return number(value);
    }
    int decimals = Math.max(0, 1 - (int) Math.floor(Math.log10(u)));
    return String.format(
        Locale.ROOT, "%." + decimals + "f\u00a0\u00b1\u00a0%." + decimals + "f", value, u);
  }

  /** Whole percent; nothing that was estimated is certain. */
  static String confidence(double p) {
    return Double.isNaN(p)
        ? "\u2013"
        : p > 0.99 ? "&gt;\u00a099\u00a0%" : Math.round(100 * p) + "\u00a0%";
  }

  /** "20,500 (10,000 to 41,000)", to three digits. */
  static String amount(double value, double low, double high) {
    return Double.isNaN(value)
        ? "\u2013"
        : count(value) + (Double.isNaN(low) ? "" : " (" + count(low) + " to " + count(high) + ")");
  }

  private static String count(double v) {
    double step = v == 0 ? 1 : Math.pow(10, Math.max(0, Math.floor(Math.log10(Math.abs(v))) - 2));
    return String.format(Locale.ROOT, "%,.0f", Math.rint(v / step) * step);
  }
}
