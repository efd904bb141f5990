package org.diesurvey.cli;

import java.io.PrintStream;
import java.io.PrintWriter;
import java.nio.charset.Charset;
import java.util.List;
import java.util.Locale;
import java.util.function.UnaryOperator;

/**
 * Where text goes: results to one stream, progress and error messages to the other.
 *
 * @param out results
 * @param err progress, warnings, errors
 * @param errIsTerminal whether a person watches the error stream, so that a line may be redrawn
 * @param colour whether results may be coloured
 * @param plainText whether the streams carry ASCII only
 * @param environment values of environment variables; null where a variable is not set
 */
record Terminal(
    PrintWriter out,
    PrintWriter err,
    boolean errIsTerminal,
    boolean colour,
    boolean plainText,
    UnaryOperator<String> environment) {

  /** Set by the launcher, which can ask the system about each stream; Java cannot. */
  private static final String OUT_PROPERTY = "diesurvey.stdout.terminal";

  /** Longest error message; longer ones repeat what a stranger wrote. */
  private static final int LONGEST_REMARK = 700;

  private static final String BOLD = "\u001b[1m";
  private static final String YELLOW = "\u001b[33m";
  private static final String PLAIN = "\u001b[0m";
  private static final List<String> STYLES = List.of(BOLD, YELLOW, PLAIN);

  private static final String ERR_PROPERTY = "diesurvey.stderr.terminal";

  /** The streams of this process. */
  static Terminal ofSystem() {
    Charset charset = charset();
    return new Terminal(
        writer(System.out, charset),
        writer(System.err, charset),
        mayRedraw(isTerminal(ERR_PROPERTY), System::getenv),
        mayColour(isTerminal(OUT_PROPERTY), System::getenv),
        !charset.newEncoder().canEncode('\u00b1'),
        System::getenv);
  }

  /** Whether a line may be redrawn: a person watches, and the terminal can. */
  static boolean mayRedraw(boolean isTerminal, UnaryOperator<String> environment) {
    return isTerminal && !"dumb".equals(environment.apply("TERM"));
  }

  /**
   * Whether text may be coloured: never where the variable NO_COLOR is set and not empty (the
   * convention of no-color.org).
   */
  static boolean mayColour(boolean isTerminal, UnaryOperator<String> environment) {
    String no = environment.apply("NO_COLOR");
    return mayRedraw(isTerminal, environment) && (no == null || no.isEmpty());
  }

  /** What the streams carry; JDK 17 and JDK 19 name the property differently. */
  private static Charset charset() {
    String name = System.getProperty("stdout.encoding", System.getProperty("sun.stdout.encoding"));
    return name != null && Charset.isSupported(name)
        ? Charset.forName(name)
        : Charset.defaultCharset();
  }

  private static boolean isTerminal(String property) {
    String said = System.getProperty(property);
    return said == null ? System.console() != null : Boolean.parseBoolean(said);
  }

  private static PrintWriter writer(PrintStream stream, Charset charset) {
    return new PrintWriter(new java.io.OutputStreamWriter(stream, charset), true);
  }

  /** The text with ASCII stand-ins where the streams cannot carry more. */
  String shown(String text) {
    return plainText
        ? text.replace("\u00b1", "+-")
            .replace("\u00d7", "x")
            .replace("\u00b2", "2")
            .replace("\u00b5", "u")
            .replace("\u00b0", " deg")
            .replace("\u2013", "-")
        : text;
  }

  /**
   * The text with everything taken out that a terminal would obey or hide: names of files and texts
   * in documents come from strangers. Bold and colour of this program stay. In a line of JSON such
   * characters are written as JSON has it, so that it stays exact.
   */
  private static String harmless(String text) {
    boolean json = text.startsWith("{");
    StringBuilder s = new StringBuilder(text.length());
    for (int i = 0; i < text.length(); ) {
      String style = styleAt(text, i);
      int c = text.codePointAt(i);
      int type = Character.getType(c);
      if (!style.isEmpty()) {
        s.append(style);
        i += style.length();
        continue;
      }
      boolean obeyed = type == Character.CONTROL && c != '\n' && c != '\t';
      if (obeyed || type == Character.FORMAT || type == Character.SURROGATE) {
        s.append(json ? String.format(Locale.ROOT, "\\u%04x", c & 0xffff) : "?");
      } else {
        s.appendCodePoint(c);
      }
      i += Character.charCount(c);
    }
    return s.toString();
  }

  private static String styleAt(String text, int at) {
    for (String style : STYLES) {
      if (text.startsWith(style, at)) {
        return style;
      }
    }
    return "";
  }

  /** At most so many characters of a remark; what is left out stands in its middle. */
  private static String shortened(String text) {
    if (text.length() <= LONGEST_REMARK) {
      return text;
    }
    int head =
        text.offsetByCodePoints(
            0, Math.min(LONGEST_REMARK / 2, text.codePointCount(0, text.length())));
    int tail = Math.max(head, text.length() - LONGEST_REMARK / 3);
    return text.substring(0, head) + " [...] " + text.substring(tail);
  }

  /** Writes a line of the result. */
  void result(String line) {
    out.println(shown(harmless(line)));
    out.flush();
  }

  /** Writes a line of progress, or an error message. */
  void remark(String line) {
    err.println(shown(harmless(shortened(line)).replace('\n', ' ')));
    err.flush();
  }

  /** Redraws the one line of progress, cut and filled up to a width. */
  void redraw(String line, int width) {
    String plain = harmless(line).replace('\n', ' ');
    String cut = plain.length() > width ? plain.substring(0, width) : plain;
    err.print("\r" + cut + " ".repeat(width - cut.length()));
    err.flush();
  }

  /** Clears the line of progress. */
  void clearLine(int width) {
    redraw("", width);
    err.print("\r");
    err.flush();
  }

  /** The text in bold, if colours are allowed. */
  String strong(String text) {
    return colour ? BOLD + text + PLAIN : text;
  }

  /** The text in the colour of warnings, if colours are allowed. */
  String warning(String text) {
    return colour ? YELLOW + text + PLAIN : text;
  }
}
