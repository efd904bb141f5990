package org.diesurvey.interchange.gds;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.diesurvey.DieInputException;
import org.diesurvey.classification.DieClass;
import org.diesurvey.interchange.ClassedOutline;
import org.diesurvey.interchange.Extent;
import org.diesurvey.interchange.OutlineChecks;
import org.diesurvey.interchange.OutlineSet;
import org.diesurvey.interchange.OutlineShapes;
import org.diesurvey.interchange.PhotoLink;
import org.diesurvey.interchange.TestOutlines;
import org.diesurvey.interchange.reading.OutlineFiles;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.util.AffineTransformation;

/** Streams built record by record, in nm; what is read is in um. */
class GdsReaderTest {
  private static final GdsLayer LOGIC = new GdsLayer(DieClass.LOGIC.code(), 0);

  private static OutlineSet parse(GdsBytes stream) {
    return OutlineFiles.parse(stream.bytes(), "o.gds");
  }

  private static String refusal(GdsBytes stream) {
    DieInputException e = assertThrows(DieInputException.class, () -> parse(stream));
    assertTrue(e.getMessage().startsWith("o.gds: "), e.getMessage());
    return e.getMessage();
  }

  private static GdsBytes part() {
    return new GdsBytes().cell("PART").rectangle(LOGIC.layer(), 0, 1000, 2000, 4000, 4000).end();
  }

  /** Three columns and two rows of a part of 3 x 2 um at (1, 2), begun at (10, 20). */
  @Test
  void arrayOfAStructure_standsAtEveryColumnAndRow() {
    OutlineSet set =
        parse(part().cell("TOP").array("PART", 10_000, 20_000, 3, 2, 5000, 7000).end());
    List<String> found = new ArrayList<>();
    for (ClassedOutline o : set.regions()) {
      Envelope e = OutlineShapes.polygon(o.shape()).getEnvelopeInternal();
      assertEquals(3, e.getWidth(), 1e-9);
      assertEquals(2, e.getHeight(), 1e-9);
      found.add(Math.round(e.getMinX()) + "," + Math.round(e.getMinY()));
    }
    found.sort(null);
    assertEquals(List.of("11,22", "11,29", "16,22", "16,29", "21,22", "21,29"), found);
  }

  @Test
  void structuresInStructures_addTheirPlaces() {
    GdsBytes s = part().cell("MID").place("PART", 10_000, 0).end();
    OutlineSet set = parse(s.cell("TOP").place("MID", 0, 500_000).end());
    Envelope e = OutlineShapes.polygon(set.regions().get(0).shape()).getEnvelopeInternal();
    assertEquals(new Envelope(11, 14, 502, 504), e);
    assertEquals(Optional.empty(), set.extent());
    assertEquals(DieClass.LOGIC, set.regions().get(0).dieClass());
  }

  @Test
  void streamThatIsNoSetOfOutlines_isRefused() {
    assertTrue(
        refusal(new GdsBytes().cell("TOP").place("LOST", 0, 0).end())
            .contains("'LOST' is placed but not in the stream"));
    assertTrue(
        refusal(part().cell("B").rectangle(LOGIC.layer(), 0, 0, 0, 1000, 1000).end())
            .contains("2 top structures (PART, B)"));
    assertTrue(
        refusal(new GdsBytes().cell("A").place("A", 0, 0).end()).contains("no top structure"));
    GdsBytes deep = part();
    for (int i = 0; i < 200; i++) {
      deep.cell("S" + i).place(i == 0 ? "PART" : "S" + (i - 1), 0, 0).end();
    }
    assertTrue(refusal(deep).contains("placed in one another deeper than"));
    assertTrue(
        refusal(part().cell("TOP").array("PART", 0, 0, 30_000, 30_000, 5000, 7000).end())
            .contains("places more than " + OutlineChecks.MOST_OUTLINES + " shapes"));
  }

  /** Half a million shapes twice over: the count goes on from array to array. */
  @Test
  void shapesAreCountedOverAllArrays() {
    int side = (int) Math.sqrt(0.6 * OutlineChecks.MOST_OUTLINES);
    GdsBytes empty = new GdsBytes().cell("NONE").end();
    GdsBytes twice =
        empty
            .cell("TOP")
            .array("NONE", 0, 0, side, side, 1, 1)
            .array("NONE", 0, 0, side, side, 1, 1)
            .end();
    assertTrue(refusal(twice).contains("places more than"));
  }

  @Test
  void dieOutline_liesAtTheOriginOnce() {
    OutlineSet set = parse(new GdsBytes().cell("T").rectangle(0, 0, 0, 0, 90_000, 40_000).end());
    assertEquals(Optional.of(new Extent(90, 40)), set.extent());
    assertEquals(PhotoLink.UNKNOWN, set.photo());
    String words = "one outline of the die with its lower left corner at the origin";
    GdsBytes off = new GdsBytes().cell("T").rectangle(0, 0, 5, 0, 90_000, 40_000).end();
    assertTrue(refusal(off).contains(words));
    GdsBytes low = new GdsBytes().cell("T").rectangle(0, 0, 0, -5, 90_000, 40_000).end();
    assertTrue(refusal(low).contains(words));
    GdsBytes two =
        new GdsBytes()
            .cell("T")
            .rectangle(0, 0, 0, 0, 90_000, 40_000)
            .rectangle(0, 0, 0, 0, 90_000, 40_000)
            .end();
    assertTrue(refusal(two).contains(words));
  }

  /** Shapes without an id are outlines of their own, whatever their number. */
  @Test
  void shapesWithoutAnId_getOne() {
    OutlineSet set =
        parse(
            new GdsBytes()
                .cell("T")
                .rectangle(LOGIC.layer(), 0, 0, 0, 1000, 1000)
                .rectangle(LOGIC.layer(), 0, 2000, 0, 3000, 1000)
                .rectangle(1, 0, 4000, 0, 9000, 5000)
                .rectangle(1, 1, 5000, 1000, 8000, 4000)
                .end());
    assertEquals(4, set.outlines().size());
    assertEquals(4, set.outlines().stream().map(ClassedOutline::id).distinct().count());
    ClassedOutline memory =
        set.regions().stream().filter(o -> o.dieClass() == DieClass.MEMORY_ARRAY).findFirst().get();
    assertEquals(1, set.bitCellsOf(memory.id()).size());
    assertEquals(Optional.empty(), memory.reason());
  }

  /** Mirrored, scaled, turned and moved in this order, by the transformations of JTS. */
  @ParameterizedTest
  @CsvSource({
    "true, 1, 0",
    "false, 2.5, 0",
    "false, 1, 90",
    "true, 1, 270",
    "false, 1, 30",
    "true, 0.5, 200"
  })
  void placedStructure_isTransformedAsTheFormatSays(
      boolean mirrored, double scale, double degrees) {
    OutlineSet set =
        parse(part().cell("TOP").place("PART", mirrored, scale, degrees, 50_000, 60_000).end());
    AffineTransformation map =
        AffineTransformation.scaleInstance(1, mirrored ? -1 : 1)
            .scale(scale, scale)
            .rotate(Math.toRadians(degrees))
            .translate(50, 60);
    Geometry expected = map.transform(OutlineShapes.polygon(TestOutlines.box(1, 2, 3, 2)));
    Geometry own = OutlineShapes.polygon(set.regions().get(0).shape());
    assertEquals(0, own.symDifference(expected).getArea(), 1e-6);
  }
}
