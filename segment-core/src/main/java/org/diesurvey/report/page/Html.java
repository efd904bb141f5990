package org.diesurvey.report.page;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Base64;
import java.util.HexFormat;

/** Text that enters a page. */
public final class Html {
  private Html() {}

  /** Text made safe for element content and quoted attributes; control characters are shown. */
  public static String escape(String text) {
    StringBuilder safe = new StringBuilder(text.length() + 16);
    text.codePoints()
        .forEach(
            c -> {
              switch (c) {
                case '&' -> safe.append("&amp;");
                case '<' -> safe.append("&lt;");
                case '>' -> safe.append("&gt;");
                case '"' -> safe.append("&quot;");
                case '\'' -> safe.append("&#39;");
                default -> safe.appendCodePoint(visible(c) ? c : 0xFFFD);
              }
            });
    return safe.toString();
  }

  /** Control and direction-changing characters could make a file name look like another one. */
  private static boolean visible(int c) {
    int type = Character.getType(c);
    return c == '\n'
        || type != Character.CONTROL && type != Character.FORMAT && type != Character.SURROGATE;
  }

  /** Text in which characters that are not seen are replaced by one that is. */
  static String visible(String text) {
    StringBuilder shown = new StringBuilder(text.length());
    text.codePoints().forEach(c -> shown.appendCodePoint(visible(c) ? c : 0xFFFD));
    return shown.toString();
  }

  /** SHA-256 as 64 lower-case hexadecimal digits. */
  static String sha256(byte[] content) {
    return HexFormat.of().formatHex(digest(content));
  }

  /**
   * The source expression of a Content Security Policy (W3C CSP Level 3, 2.3.1) for a style or
   * script.
   */
  public static String hashSource(String content) {
    byte[] hash = digest(content.getBytes(StandardCharsets.UTF_8));
    return "'sha256-" + Base64.getEncoder().encodeToString(hash) + "'";
  }

  private static byte[] digest(byte[] content) {
    try {
      return MessageDigest.getInstance("SHA-256").digest(content);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }
}
