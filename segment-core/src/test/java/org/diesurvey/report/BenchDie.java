package org.diesurvey.report;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.geom.AffineTransform;
import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.classification.DieClass;
import org.diesurvey.classification.UnclearReason;
import org.diesurvey.photo.PhotoInfo;
import org.diesurvey.photo.PixelSource;
import org.diesurvey.quantity.Measured;
import org.diesurvey.quantity.MeasuredArea;
import org.diesurvey.report.picture.OverlayPicture;
import org.diesurvey.survey.BondPadCount;
import org.diesurvey.survey.ClassTotal;
import org.diesurvey.survey.ClassVerdict;
import org.diesurvey.survey.DieFrame;
import org.diesurvey.survey.Notice;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Period;
import org.diesurvey.survey.Point;
import org.diesurvey.survey.Preparation;
import org.diesurvey.survey.RegionArea;
import org.diesurvey.survey.RegionShape;
import org.diesurvey.survey.ScaleRecord;
import org.diesurvey.survey.Software;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.SurveyMethod;
import org.diesurvey.survey.SurveyRegion;

/**
 * A die of plain rectangles for work at the report: 700 x 500 um, turned by 2 degrees in a photo of
 * 1600 x 1200 px at 0.5 um/px. The survey is right but for the memory MEM1, whose right side it
 * puts at 296 um; in the picture it is at 300 um. MEM2 holds a lattice of 8 um both ways, MEM1 is
 * plain.
 */
final class BenchDie {
  private static final int WIDTH = 1600;
  private static final int HEIGHT = 1200;
  private static final double PITCH = 0.5;
  private static final double TURN = Math.toRadians(2);
  private static final double DIE_WIDTH = 700;
  private static final double DIE_HEIGHT = 500;
  private static final double U_PITCH = 0.005;

  private final List<SurveyRegion> regions = new ArrayList<>();
  private final boolean scaled;

  private BenchDie(boolean scaled) {
    this.scaled = scaled;
  }

  /** Die um, y up, to photo px, y down. */
  private static AffineTransform toPhoto() {
    AffineTransform t = AffineTransform.getTranslateInstance(WIDTH / 2.0, HEIGHT / 2.0);
    t.rotate(TURN);
    t.scale(1 / PITCH, -1 / PITCH);
    t.translate(-DIE_WIDTH / 2, -DIE_HEIGHT / 2);
    return t;
  }

  static PixelSource photo() {
    BufferedImage image = new BufferedImage(WIDTH, HEIGHT, BufferedImage.TYPE_INT_RGB);
    Graphics2D g = image.createGraphics();
    OverlayPicture.smooth(g);
    g.setTransform(toPhoto());
    block(g, 0, 0, DIE_WIDTH, DIE_HEIGHT, 70);
    block(g, 60, 60, 640, 440, 40);
    block(g, 80, 280, 620, 420, 95);
    block(g, 100, 120, 300, 260, 130);
    block(g, 320, 120, 420, 260, 150);
    block(g, 450, 120, 600, 220, 175);
    for (int column = 0; column < 9; column++) {
      for (int row = 0; row < 14; row++) {
        double x = 334 + 8 * column;
        double y = 134 + 8 * row;
        block(g, x, y, x + 4, y + 4, 128); // the lattice of MEM2
      }
    }
    g.dispose();
    Random noise = new Random(1);
    for (int y = 0; y < HEIGHT; y++) {
      for (int x = 0; x < WIDTH; x++) {
        int v = (image.getRGB(x, y) & 0xff) + noise.nextInt(17);
        image.setRGB(x, y, v << 16 | v << 8 | Math.min(255, v + 12));
      }
    }
    return new ImageSource(image);
  }

  private static void block(Graphics2D g, double x0, double y0, double x1, double y1, int grey) {
    g.setColor(new Color(grey, grey, grey));
    g.fill(new Rectangle2D.Double(x0, y0, x1 - x0, y1 - y0));
  }

  private static List<Point> box(double x0, double y0, double x1, double y1) {
    return List.of(new Point(x0, y0), new Point(x1, y0), new Point(x1, y1), new Point(x0, y1));
  }

  private static List<Point> px(List<Point> um) {
    AffineTransform t = toPhoto();
    List<Point> out = new ArrayList<>();
    for (Point p : um) {
      double[] c = {p.x(), p.y()};
      t.transform(c, 0, c, 0, 1);
      out.add(new Point(Math.rint(100 * c[0]) / 100, Math.rint(100 * c[1]) / 100));
    }
    return out;
  }

  private static Outline px(Outline um) {
    return new Outline(px(um.shell()), um.holes().stream().map(BenchDie::px).toList());
  }

  static Survey survey(boolean scaled, String fileName) {
    return survey(scaled, fileName, 0);
  }

  /** The same with small damaged places beside the logic. */
  static Survey survey(boolean scaled, String fileName, int damaged) {
    BenchDie die = new BenchDie(scaled);
    Outline ring = new Outline(box(0, 0, DIE_WIDTH, DIE_HEIGHT), List.of(box(60, 60, 640, 440)));
    die.add("MEM1", DieClass.MEMORY_ARRAY, new Outline(box(100, 120, 296, 260), List.of()), 0.9);
    die.add("MEM2", DieClass.MEMORY_ARRAY, new Outline(box(320, 120, 420, 260), List.of()), 0.8);
    die.add("MAC1", DieClass.HARD_MACRO, new Outline(box(450, 120, 600, 220), List.of()), 0.4);
    die.add("LOG1", DieClass.LOGIC, new Outline(box(80, 280, 620, 420), List.of()), 0.97);
    die.add("PAD1", DieClass.PAD_RING, ring, 0.85);
    die.add("UNC1", DieClass.UNCLEAR, new Outline(box(450, 230, 600, 270), List.of()), 0.7);
    for (int i = 0; i < damaged; i++) {
      Outline speck = new Outline(box(65, 90 + 20 * i, 70, 95 + 20 * i), List.of());
      die.add("UNC" + (i + 2), DieClass.UNCLEAR, Optional.of(UnclearReason.DAMAGED), speck, 0.5);
    }
    double mm2 = DIE_WIDTH * DIE_HEIGHT / 1e6;
    return new Survey(
        new PhotoInfo(
            fileName,
            "0123456789abcdef".repeat(4),
            1234,
            "PNG",
            WIDTH,
            HEIGHT,
            8,
            3,
            Optional.empty()),
        new SurveyMethod(
            new Software("diesurvey", "0.1.0", "bench 1", "0".repeat(64)),
            1,
            OptionalDouble.of(130),
            8),
        new ScaleRecord(
            scaled ? Optional.of(Calibration.ofPixelPitch(PITCH, U_PITCH)) : Optional.empty(),
            Optional.empty()),
        new DieFrame(
            true,
            px(box(0, 0, DIE_WIDTH, DIE_HEIGHT)),
            2,
            die.measured(DIE_WIDTH / 1e3, 0.01),
            die.measured(DIE_HEIGHT / 1e3, 0.01),
            die.measured(mm2, 0.02),
            mm2 * 1e6 / PITCH / PITCH),
        Preparation.NONE,
        die.regions,
        die.totals(),
        List.of(new Notice("odd-notice", "A claim.", "A remedy.")),
        Optional.empty());
  }

  private Optional<Measured> measured(double value, double relative) {
    return scaled ? Optional.of(new Measured(value, relative * value)) : Optional.empty();
  }

  /** As uncertain as the scale alone makes it. */
  private Optional<MeasuredArea> area(double mm2) {
    return scaled ? Optional.of(MeasuredArea.of(mm2, 0, 0.02 * mm2)) : Optional.empty();
  }

  private void add(String id, DieClass c, Outline um, double confidence) {
    Optional<UnclearReason> reason =
        c == DieClass.UNCLEAR ? Optional.of(UnclearReason.EMPTY) : Optional.empty();
    add(id, c, reason, um, confidence);
  }

  private void add(
      String id, DieClass c, Optional<UnclearReason> reason, Outline um, double confidence) {
    double areaUm2 = area(um.shell()) - um.holes().stream().mapToDouble(BenchDie::area).sum();
    boolean array = id.equals("MEM1");
    Outline inner = new Outline(box(105, 125, 290, 250), List.of());
    Map<DieClass, Double> p = new EnumMap<>(DieClass.class);
    for (DieClass other :
        List.of(DieClass.MEMORY_ARRAY, DieClass.HARD_MACRO, DieClass.LOGIC, DieClass.PAD_RING)) {
      p.put(other, other == c ? confidence : (1 - confidence) / 3);
    }
    regions.add(
        new SurveyRegion(
            id,
            new ClassVerdict(c, reason, confidence, p),
            new RegionShape(px(um), array ? List.of(px(inner)) : List.of()),
            scaled
                ? Optional.of(new RegionShape(um, array ? List.of(inner) : List.of()))
                : Optional.empty(),
            new RegionArea(
                areaUm2 / PITCH / PITCH,
                area(areaUm2 / 1e6),
                areaUm2 / DIE_WIDTH / DIE_HEIGHT,
                Optional.empty()),
            array ? List.of(new Period(new Measured(2.4, 0.012), 90, 0.75)) : List.of(),
            Optional.empty(),
            array ? List.of("MEM2", "LOG1") : List.of(),
            c == DieClass.PAD_RING
                ? Optional.of(new BondPadCount(60, Optional.empty()))
                : Optional.empty()));
  }

  /** Of a rectangle whose corners go round. */
  private static double area(List<Point> box) {
    Point p = box.get(0);
    Point q = box.get(2);
    return Math.abs((q.x() - p.x()) * (q.y() - p.y()));
  }

  private List<ClassTotal> totals() {
    List<ClassTotal> totals = new ArrayList<>();
    for (DieClass c : DieClass.values()) {
      for (Optional<UnclearReason> reason :
          regions.stream()
              .filter(r -> r.dieClass() == c)
              .map(r -> r.verdict().reason())
              .distinct()
              .toList()) {
        List<SurveyRegion> of =
            regions.stream()
                .filter(r -> r.dieClass() == c && r.verdict().reason().equals(reason))
                .toList();
        double share = of.stream().mapToDouble(r -> r.area().shareOfDie()).sum();
        totals.add(
            new ClassTotal(
                c, reason, of.size(), area(share * DIE_WIDTH * DIE_HEIGHT / 1e6), share));
      }
    }
    return totals;
  }
}
