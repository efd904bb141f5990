package org.diesurvey.report.pdf;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.diesurvey.report.page.Html;

/**
 * The words of our own page without their markup, so that the PDF says what the page says. Only
 * markup that this package writes is understood.
 */
final class PlainBlocks {
  private static final Pattern TAG = Pattern.compile("<(/?)([a-z0-9]+)[^>]*>");

  /** What a block of text is. */
  enum Kind {
    HEADING,
    SUBHEADING,
    PARAGRAPH,
    ITEM,
    FACT
  }

  /**
   * A block.
   *
   * @param name name of a fact; empty for others
   * @param text words, single blanks between them
   */
  record Block(Kind kind, String name, String text) {}

  private final List<Block> blocks = new ArrayList<>();
  private final StringBuilder text = new StringBuilder();
  private String name = "";

  private PlainBlocks() {}

  /** The blocks of a part of the page, in order. */
  static List<Block> of(String html) {
    PlainBlocks p = new PlainBlocks();
    Matcher tag = TAG.matcher(html);
    int at = 0;
    while (tag.find()) {
      p.text.append(html, at, tag.start());
      at = tag.end();
      if (tag.group(1).isEmpty()) {
        p.begin(tag.group(2));
      } else {
        p.end(tag.group(2));
      }
    }
    return List.copyOf(p.blocks);
  }

  private void begin(String tag) {
    switch (tag) {
      case "h2", "h3", "p", "li", "dt", "dd" -> text.setLength(0);
      default -> {}
    }
  }

  private void end(String tag) {
    switch (tag) {
      case "h2" -> add(Kind.HEADING, "");
      case "h3" -> add(Kind.SUBHEADING, "");
      case "p" -> add(Kind.PARAGRAPH, "");
      case "li" -> add(Kind.ITEM, "");
      case "dt" -> name = words();
      case "dd" -> add(Kind.FACT, name);
      default -> {}
    }
  }

  private void add(Kind kind, String label) {
    String words = words();
    if (!words.isEmpty()) {
      blocks.add(new Block(kind, label, words));
    }
    text.setLength(0);
  }

  /** Plain text: the five escapes of {@link Html#escape} undone, white space made single blanks. */
  private String words() {
    return text.toString()
        .replaceAll("[ \\n\\r\\t]+", " ")
        .strip()
        .replace("&lt;", "<")
        .replace("&gt;", ">")
        .replace("&quot;", "\"")
        .replace("&#39;", "'")
        .replace("&amp;", "&");
  }
}
