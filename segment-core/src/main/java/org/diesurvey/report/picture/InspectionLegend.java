package org.diesurvey.report.picture;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.diesurvey.inspection.Inspection;

/** What stands around the picture of an inspection: the file's name above, the legend below. */
final class InspectionLegend {
  private static final Color PAPER = new Color(0xFBFAF6);
  private static final double MARGIN = 26;
  private static final double TITLE = 64;
  private static final double ITEM_WIDTH = 400;
  private static final double ITEM_HEIGHT = 70;

  /** How a sign is drawn at a place, the middle of its field. */
  private interface Sign {
    void draw(Graphics2D g, double x, double y, double unit);
  }

  private record Item(String name, String amount, Sign sign) {}

  private InspectionLegend() {}

  static BufferedImage around(Inspection in, BufferedImage drawn, double unit) {
    List<Item> items = items(in);
    int margin = (int) Math.round(MARGIN * unit);
    int width = 2 * margin + Math.max(drawn.getWidth(), (int) Math.ceil(ITEM_WIDTH * unit));
    int columns = Math.max(1, (int) ((width - 2 * margin) / (ITEM_WIDTH * unit)));
    int rows = (items.size() + columns - 1) / columns;
    int top = (int) Math.round(TITLE * unit);
    int bottom = (int) Math.round((rows * ITEM_HEIGHT + 1.5 * MARGIN) * unit);
    BufferedImage page =
        new BufferedImage(width, top + drawn.getHeight() + bottom, BufferedImage.TYPE_INT_RGB);
    Graphics2D g = page.createGraphics();
    OverlayPicture.smooth(g);
    g.setColor(PAPER);
    g.fillRect(0, 0, page.getWidth(), page.getHeight());
    g.drawImage(drawn, margin, top, null);
    InspectionPicture.text(g, title(in), true, 26 * unit, margin, 42 * unit);
    double step = (width - 2.0 * margin) / columns;
    for (int i = 0; i < items.size(); i++) {
      double x = margin + (i % columns) * step;
      double y = top + drawn.getHeight() + (MARGIN + (i / columns) * ITEM_HEIGHT) * unit;
      Item item = items.get(i);
      item.sign.draw(g, x + 32 * unit, y + 20 * unit, unit);
      InspectionPicture.text(g, item.name, true, 21 * unit, x + 76 * unit, y + 16 * unit);
      InspectionPicture.text(g, item.amount, false, 19 * unit, x + 76 * unit, y + 42 * unit);
    }
    g.dispose();
    return page;
  }

  private static String title(Inspection in) {
    int n = in.findings().size();
    return in.subject().photo().fileName()
        + ": "
        + (n == 0 ? "nothing found that spoils a survey" : n == 1 ? "1 finding" : n + " findings");
  }

  private static List<Item> items(Inspection in) {
    List<Item> items = new ArrayList<>();
    items.add(disc("Sharp edges", "softness 0.5 px", 0.5));
    items.add(disc("Soft edges", "softness 3 px: larger disc, softer", 3));
    if (in.subject().die().edgeFound()) {
      items.add(
          new Item("Die edge", "as found", (g, x, y, u) -> line(g, x, y, u, new Color(0x909090))));
    }
    int seams = in.artefacts().stitching().seams().size();
    items.add(
        new Item(
            "Seams of fields",
            !in.artefacts().stitching().judged() ? "not judged: layout upright" : count(seams),
            (g, x, y, u) -> line(g, x, y, u, InspectionPicture.SEAM)));
    items.add(
        box(
            "Repeated stripes",
            count(in.artefacts().stitching().repeats().size()),
            InspectionPicture.REPEAT));
    items.add(
        frame(
            "Dark spots",
            share(in.artefacts().dirt().darkShare()) + ", dust",
            InspectionPicture.DARK_SPOT));
    items.add(
        frame(
            "Bright spots",
            share(in.artefacts().dirt().brightShare()) + ", residue or glare",
            InspectionPicture.BRIGHT_SPOT));
    items.add(
        box(
            "Clipped to white",
            share(in.capture().exposure().whiteShare()) + place(in),
            InspectionPicture.WHITE_CLIP));
    items.add(
        box(
            "Clipped to black",
            share(in.capture().exposure().blackShare()) + place(in),
            InspectionPicture.BLACK_CLIP));
    return items;
  }

  private static String place(Inspection in) {
    return in.subject().die().edgeFound() ? " of the die" : " of the photograph";
  }

  private static String count(int n) {
    return n == 0 ? "none found" : n + " found";
  }

  private static String share(double share) {
    return share == 0
        ? "0 %"
        : share < 0.0001 ? "< 0.01 %" : String.format(Locale.ROOT, "%.2f %%", 100 * share);
  }

  private static Item disc(String name, String amount, double blurPx) {
    return new Item(
        name,
        amount,
        (g, x, y, u) -> InspectionPicture.disc(g, x, y, blurPx, u, new Color(0x404040)));
  }

  private static Item box(String name, String amount, Color color) {
    return new Item(
        name,
        amount,
        (g, x, y, u) -> {
          g.setColor(color);
          g.fill(new Rectangle2D.Double(x - 22 * u, y - 16 * u, 44 * u, 32 * u));
        });
  }

  private static Item frame(String name, String amount, Color color) {
    return new Item(
        name,
        amount,
        (g, x, y, u) -> {
          Rectangle2D r = new Rectangle2D.Double(x - 20 * u, y - 14 * u, 40 * u, 28 * u);
          g.setColor(new Color(0x404040));
          g.setStroke(new BasicStroke((float) (5 * u)));
          g.draw(r);
          g.setColor(color);
          g.setStroke(new BasicStroke((float) (3 * u)));
          g.draw(r);
        });
  }

  private static void line(Graphics2D g, double x, double y, double u, Color color) {
    g.setColor(color);
    g.setStroke(new BasicStroke((float) (4 * u)));
    g.draw(new Line2D.Double(x - 24 * u, y, x + 24 * u, y));
  }
}
