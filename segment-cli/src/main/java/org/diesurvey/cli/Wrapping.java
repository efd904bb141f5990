package org.diesurvey.cli;

import java.util.ArrayList;
import java.util.List;

/** Breaks text at blanks, so that lines stay readable in a narrow window. */
final class Wrapping {
  private Wrapping() {}

  static List<String> lines(String text, int width) {
    List<String> lines = new ArrayList<>();
    StringBuilder line = new StringBuilder();
    for (String word : text.split(" ")) {
      if (line.length() > 0 && line.length() + 1 + word.length() > width) {
        lines.add(line.toString());
        line.setLength(0);
      }
      line.append(line.length() == 0 ? "" : " ").append(word);
    }
    lines.add(line.toString());
    return lines;
  }
}
