package org.diesurvey.interchange;

/** Text made safe for XML 1.0, element content and attribute values alike. */
public final class XmlText {
  private XmlText() {}

  /** Escapes markup; characters that XML 1.0 (2.2) does not allow become U+FFFD. */
  public static String escape(String text) {
    StringBuilder s = new StringBuilder(text.length() + 16);
    text.codePoints()
        .forEach(
            c -> {
              switch (c) {
                case '&' -> s.append("&amp;");
                case '<' -> s.append("&lt;");
                case '>' -> s.append("&gt;");
                case '"' -> s.append("&quot;");
                case '\'' -> s.append("&#39;");
                case '\t' -> s.append("&#9;");
                case '\n' -> s.append("&#10;");
                case '\r' -> s.append("&#13;");
                default -> s.appendCodePoint(allowed(c) ? c : 0xFFFD);
              }
            });
    return s.toString();
  }

  private static boolean allowed(int c) {
    return c >= 0x20 && c <= 0xD7FF || c >= 0xE000 && c <= 0xFFFD || c >= 0x10000;
  }
}
