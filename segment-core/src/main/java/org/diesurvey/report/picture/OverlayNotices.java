package org.diesurvey.report.picture;

import java.awt.Color;
import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;
import java.util.ArrayList;
import java.util.List;
import org.diesurvey.report.text.SevereNotices;
import org.diesurvey.survey.Survey;

/** The severe notices of a survey between the title and the photograph, in full. */
final class OverlayNotices {
  private static final Color INK = new Color(0x1C2430);
  private static final Color MARK = new Color(0xB3261E);
  private static final double SIZE = 23;
  private static final double LINE = 31;
  private static final double GAP = 12;
  private static final double INDENT = 20;

  private final List<List<String>> notices = new ArrayList<>();
  private final double unit;

  /**
   * @param width room for a line, picture px
   * @param unit size of strokes and letters
   */
  OverlayNotices(Survey survey, double width, double unit) {
    this.unit = unit;
    Graphics2D g = new BufferedImage(1, 1, BufferedImage.TYPE_INT_RGB).createGraphics();
    OverlayPicture.smooth(g);
    for (String sentence : SevereNotices.sentences(survey)) {
      notices.add(wrapped(g, sentence, width - INDENT * unit));
    }
    g.dispose();
  }

  private List<String> wrapped(Graphics2D g, String text, double width) {
    List<String> lines = new ArrayList<>();
    String line = "";
    for (String word : text.split(" ")) {
      String longer = line.isEmpty() ? word : line + " " + word;
      if (!line.isEmpty() && Lettering.of(g, longer, Font.PLAIN, SIZE * unit).width() > width) {
        lines.add(line);
        line = word;
      } else {
        line = longer;
      }
    }
    lines.add(line);
    return lines;
  }

  /** Height of all of them, picture px; 0 where there is none. */
  int height() {
    int lines = notices.stream().mapToInt(List::size).sum();
    return (int) Math.ceil((lines * LINE + notices.size() * GAP) * unit);
  }

  /** Draws them with their upper left corner at (x, y), each beside a bar. */
  void draw(Graphics2D g, double x, double y) {
    double top = y;
    for (List<String> lines : notices) {
      double high = lines.size() * LINE * unit;
      g.setColor(MARK);
      g.fill(new Rectangle2D.Double(x, top, 6 * unit, high));
      for (int i = 0; i < lines.size(); i++) {
        Lettering.of(g, lines.get(i), Font.PLAIN, SIZE * unit)
            .draw(x + INDENT * unit, top + (i * LINE + 23) * unit, INK);
      }
      top += high + GAP * unit;
    }
  }
}
