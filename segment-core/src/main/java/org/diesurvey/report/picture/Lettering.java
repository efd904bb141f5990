package org.diesurvey.report.picture;

import java.awt.Color;
import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.font.GlyphVector;
import java.util.Optional;

/**
 * One line of text as outlines. A Java runtime on a system without any font cannot draw text at
 * all; the picture then keeps its colours and hatches and goes without words.
 */
final class Lettering {
  private final Graphics2D g;
  private final Optional<GlyphVector> glyphs;
  private final double size;

  private Lettering(Graphics2D g, Optional<GlyphVector> glyphs, double size) {
    this.g = g;
    this.glyphs = glyphs;
    this.size = size;
  }

  /**
   * @param style of {@link Font}
   * @param size em size, px
   */
  static Lettering of(Graphics2D g, String text, int style, double size) {
    try {
      Font font = new Font(Font.SANS_SERIF, style, 1).deriveFont((float) size);
      return new Lettering(
          g, Optional.of(font.createGlyphVector(g.getFontRenderContext(), text)), size);
    } catch (LinkageError | InternalError | RuntimeException e) {
      return new Lettering(g, Optional.empty(), size);
    }
  }

  double width() {
    return glyphs.map(v -> v.getLogicalBounds().getWidth()).orElse(0.0);
  }

  /** Height of capital letters, close enough for placing: 0.72 em in common sans-serif fonts. */
  double capHeight() {
    return 0.72 * size;
  }

  /** Draws with the left end of the baseline at (x, y). */
  void draw(double x, double y, Color color) {
    g.setColor(color);
    glyphs.ifPresent(v -> g.fill(v.getOutline((float) x, (float) y)));
  }
}
