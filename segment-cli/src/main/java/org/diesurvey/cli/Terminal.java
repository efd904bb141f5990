package org.diesurvey.cli;

import java.io.PrintStream;
import java.io.PrintWriter;
import java.nio.charset.Charset;
import java.util.function.UnaryOperator;

/**
 * Where text goes: results to one stream, progress and complaints to the other.
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

  /** Writes a line of the result. */
  void result(String line) {
    out.println(shown(line));
    out.flush();
  }

  /** Writes a line of progress or complaint. */
  void remark(String line) {
    err.println(shown(line));
    err.flush();
  }

  /** The text in bold, if colours are allowed. */
  String strong(String text) {
    return colour ? "\u001b[1m" + text + "\u001b[0m" : text;
  }

  /** The text in the colour of warnings, if colours are allowed. */
  String warning(String text) {
    return colour ? "\u001b[33m" + text + "\u001b[0m" : text;
  }
}
