package org.diesurvey.interchange.svg;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Function;
import org.diesurvey.classification.DieClass;
import org.diesurvey.interchange.ClassedOutline;
import org.diesurvey.interchange.Extent;
import org.diesurvey.interchange.OutlineFrame;
import org.diesurvey.interchange.OutlineSet;
import org.diesurvey.interchange.OutlineWords;
import org.diesurvey.interchange.XmlText;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Point;

/**
 * Outlines as SVG over the linked photograph, for any vector editor: one unit is one pixel of the
 * photograph; one group for each class, with a title that names it and a description that says how
 * to edit. What a reader of the file needs besides stands in {@code data-} attributes (SVG 2, 5.8),
 * which editors keep.
 */
public final class SvgWriter {
  /** How a group for the bit-cell arrays inside memories is called. */
  public static final String BIT_CELLS = "bit-cell array";

  private static final List<DieClass> ORDER =
      List.of(
          DieClass.UNCLEAR,
          DieClass.PAD_RING,
          DieClass.LOGIC,
          DieClass.HARD_MACRO,
          DieClass.MEMORY_ARRAY);

  private final OutlineSet set;
  private final Extent photo;
  private final Function<DieClass, String> colour;
  private final StringBuilder s = new StringBuilder(1 << 16);

  private SvgWriter(OutlineSet set, Function<DieClass, String> colour) {
    this.set = set;
    this.photo = set.extent().orElseThrow();
    this.colour = colour;
  }

  /**
   * The document.
   *
   * @param set in the frame of the photograph, with its extent
   * @param href where the photograph lies, an IRI reference relative to the file; empty links none
   * @param colour of a class, #RRGGBB
   */
  public static String text(
      OutlineSet set, Optional<String> href, Function<DieClass, String> colour) {
    if (set.frame() != OutlineFrame.PHOTO_PX || set.extent().isEmpty()) {
      throw new IllegalArgumentException("outlines in px of a photograph of known size are needed");
    }
    SvgWriter w = new SvgWriter(set, colour);
    w.document(href);
    return w.s.toString();
  }

  private void document(Optional<String> href) {
    String width = number(photo.width());
    String height = number(photo.height());
    s.append(
            "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\"")
        .append(" xmlns:xlink=\"http://www.w3.org/1999/xlink\"");
    attribute("version", "1.1");
    attribute("width", width);
    attribute("height", height);
    attribute("viewBox", "0 0 " + width + " " + height);
    attribute("data-photo-width", width);
    attribute("data-photo-height", height);
    set.photo().fileName().ifPresent(n -> attribute("data-photo-name", n));
    set.photo().sha256().ifPresent(h -> attribute("data-photo-sha256", h));
    set.photo().umPerPx().ifPresent(u -> attribute("data-um-per-px", Double.toString(u)));
    s.append(">\n");
    element("title", "Die outlines" + set.photo().fileName().map(n -> ": " + n).orElse(""), "  ");
    element(
        "desc",
        "One unit is one pixel of the photograph. Each group is one class: draw, move, cut or"
            + " delete closed shapes inside the groups, or move a shape to another group to change"
            + " its class. Keep the photograph in place, since it fixes the scale. Save as plain"
            + " SVG.",
        "  ");
    href.ifPresent(
        link -> {
          s.append("  <image id=\"photo\" x=\"0\" y=\"0\"");
          attribute("width", width);
          attribute("height", height);
          attribute("preserveAspectRatio", "none");
          attribute("href", link);
          attribute("xlink:href", link);
          s.append("/>\n");
        });
    for (DieClass c : ORDER) {
      group(c, set.regions().stream().filter(o -> o.dieClass() == c).toList());
    }
    bitCells(set.outlines().stream().filter(ClassedOutline::inner).toList());
    s.append("</svg>\n");
  }

  private void group(DieClass c, List<ClassedOutline> outlines) {
    String ink = colour.apply(c);
    begin(c.label(), String.format(Locale.ROOT, "fill=\"%s\" fill-opacity=\"0.25\"", ink), ink, 1);
    element("title", c.label(), "    ");
    element("desc", "Outlines of the class " + c.label() + ": " + outlines.size(), "    ");
    outlines.forEach(this::path);
    s.append("  </g>\n");
  }

  private void bitCells(List<ClassedOutline> arrays) {
    begin(BIT_CELLS, "fill=\"none\"", "#1C2430", 0.5);
    element("title", BIT_CELLS, "    ");
    element("desc", "Bit-cell arrays, each inside a memory array", "    ");
    arrays.forEach(this::path);
    s.append("  </g>\n");
  }

  private void begin(String name, String fill, String ink, double width) {
    // Lines of a 2000 px picture are 2 px wide; others in proportion.
    double stroke = width * Math.max(photo.width(), photo.height()) / 1000;
    s.append("  <g");
    attribute("id", "class-" + name.replace(' ', '-'));
    attribute("data-class", name);
    s.append(' ').append(fill);
    attribute("fill-rule", "evenodd");
    attribute("stroke", ink);
    attribute("stroke-width", number(stroke));
    attribute("stroke-linejoin", "miter");
    s.append(">\n");
  }

  private void path(ClassedOutline o) {
    s.append("    <path");
    if (o.id().matches("[A-Za-z][A-Za-z0-9.-]*") && !o.id().startsWith("class-")) {
      attribute("id", o.id());
    }
    attribute("data-id", o.id());
    o.partOf().ifPresent(p -> attribute("data-part-of", p));
    o.reason().ifPresent(r -> attribute("data-reason", r));
    o.note().ifPresent(n -> attribute("data-note", n));
    o.author().ifPresent(a -> attribute("data-author", a));
    o.time().ifPresent(t -> attribute("data-time", t.toString()));
    attribute("d", pathData(o.shape()));
    s.append(">");
    s.append("<title>").append(XmlText.escape(o.id())).append("</title>");
    String words = OutlineWords.of(o);
    if (!words.isEmpty()) {
      s.append("<desc>").append(XmlText.escape(words)).append("</desc>");
    }
    s.append("</path>\n");
  }

  /** Path data of an outline: absolute corners, each ring closed. */
  public static String pathData(Outline o) {
    List<List<Point>> rings = new ArrayList<>(o.holes());
    rings.add(0, o.shell());
    StringBuilder d = new StringBuilder();
    for (List<Point> ring : rings) {
      for (int i = 0; i < ring.size(); i++) {
        d.append(d.isEmpty() ? "" : " ").append(i == 0 ? "M" : "L");
        d.append(number(ring.get(i).x())).append(',').append(number(ring.get(i).y()));
      }
      d.append(" Z");
    }
    return d.toString();
  }

  private void element(String name, String text, String indent) {
    s.append(indent).append('<').append(name).append('>').append(XmlText.escape(text));
    s.append("</").append(name).append(">\n");
  }

  private void attribute(String name, String value) {
    s.append(' ').append(name).append("=\"").append(XmlText.escape(value)).append('"');
  }

  /** A coordinate in px, to 0.001. */
  public static String number(double v) {
    BigDecimal d = BigDecimal.valueOf(v).setScale(3, RoundingMode.HALF_EVEN).stripTrailingZeros();
    return d.signum() == 0 ? "0" : d.toPlainString();
  }
}
