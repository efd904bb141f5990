package org.diesurvey.interchange;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.diesurvey.classification.DieClass;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Point;

/** Outlines for tests, and comparisons of sets. */
public final class TestOutlines {
  private TestOutlines() {}

  public static Outline box(double x, double y, double w, double h) {
    return new Outline(
        List.of(new Point(x, y), new Point(x + w, y), new Point(x + w, y + h), new Point(x, y + h)),
        List.of());
  }

  /** A ring of many corners about a centre, radius alternating, as a star. */
  public static List<Point> star(double x, double y, double r, int corners) {
    List<Point> ring = new ArrayList<>();
    for (int i = 0; i < corners; i++) {
      double radius = i % 2 == 0 ? r : 0.9 * r;
      double angle = 2 * Math.PI * i / corners;
      ring.add(
          new Point(
              Math.rint(1000 * (x + radius * Math.cos(angle))) / 1000,
              Math.rint(1000 * (y + radius * Math.sin(angle))) / 1000));
    }
    return ring;
  }

  /** One of each class; a ring with two holes, oblique edges, bit-cell arrays, many corners. */
  public static OutlineSet rich(OutlineFrame frame) {
    Outline ring =
        new Outline(
            box(0, 0, 1000, 800).shell(),
            List.of(box(50, 50, 400, 700).shell(), box(500, 50, 450, 700).shell()));
    Outline holed = new Outline(star(700, 400, 200, 400), List.of(star(700, 400, 80, 30)));
    return new OutlineSet(
        frame,
        Optional.of(new Extent(1000, 800)),
        new PhotoLink(
            Optional.of("die \"<1>\".png"),
            Optional.of("0123456789abcdef".repeat(4)),
            frame == OutlineFrame.DIE_UM ? OptionalDouble.of(0.5) : OptionalDouble.empty()),
        List.of(
            ClassedOutline.region("PAD1", DieClass.PAD_RING, ring),
            ClassedOutline.region("MAC1", DieClass.HARD_MACRO, holed),
            ClassedOutline.region("MEM1", DieClass.MEMORY_ARRAY, box(60, 60, 200, 300)),
            ClassedOutline.bitCells("MEM1.1", "MEM1", box(70, 70, 80, 280)),
            ClassedOutline.bitCells("MEM1.2", "MEM1", box(160, 70, 80, 280)),
            ClassedOutline.region("LOG1", DieClass.LOGIC, box(60, 400.5, 380, 300.25)),
            new ClassedOutline(
                "UNC1",
                DieClass.UNCLEAR,
                Optional.of("empty"),
                box(300, 60, 100, 100),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty())));
  }

  public static double area(OutlineSet set, String id) {
    return OutlineShapes.polygon(get(set, id).shape()).getArea();
  }

  public static ClassedOutline get(OutlineSet set, String id) {
    return set.outlines().stream().filter(o -> o.id().equals(id)).findFirst().orElseThrow();
  }

  /** Ids, classes, reasons and memories are equal; no edge has moved by more than a bound. */
  public static void assertSame(OutlineSet expected, OutlineSet seen, double bound) {
    assertEquals(expected.frame(), seen.frame());
    assertEquals(
        expected.outlines().stream().map(ClassedOutline::id).sorted().toList(),
        seen.outlines().stream().map(ClassedOutline::id).sorted().toList());
    for (ClassedOutline a : expected.outlines()) {
      ClassedOutline b = get(seen, a.id());
      assertEquals(a.dieClass(), b.dieClass(), a.id());
      assertEquals(a.reason(), b.reason(), a.id());
      assertEquals(a.partOf(), b.partOf(), a.id());
      var p = OutlineShapes.polygon(a.shape());
      var q = OutlineShapes.polygon(b.shape());
      assertTrue(p.symDifference(q).getArea() <= bound * p.getLength(), a.id());
    }
  }
}
