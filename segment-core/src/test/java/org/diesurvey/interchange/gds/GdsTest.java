package org.diesurvey.interchange.gds;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.TreeMap;
import org.diesurvey.DieInputException;
import org.diesurvey.classification.DieClass;
import org.diesurvey.interchange.ClassedOutline;
import org.diesurvey.interchange.Extent;
import org.diesurvey.interchange.OutlineFrame;
import org.diesurvey.interchange.OutlineSet;
import org.diesurvey.interchange.OutlineShapes;
import org.diesurvey.interchange.PhotoLink;
import org.diesurvey.interchange.SurveyOutlines;
import org.diesurvey.interchange.TestOutlines;
import org.diesurvey.interchange.reading.OutlineFiles;
import org.diesurvey.survey.Outline;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * The independent reader and writer is gdspy 1.4 (Debian package python3-gdspy); where it is absent
 * those checks are skipped and say so.
 */
class GdsTest {
  private static final Instant MOMENT = Instant.parse("2026-01-31T12:34:56Z");

  @TempDir Path folder;

  private static OutlineSet parse(byte[] bytes) {
    return OutlineFiles.parse(bytes, "o.gds");
  }

  @ParameterizedTest(name = "{0}")
  @CsvSource({
    // Eight-byte reals of the unit records of the format's manual: 1e-3 and 1e-9 (from memory of
    // common files: 3E4189374BC6A7F0 and 3944B82FA09B5A54).
    "0.001, 3E4189374BC6A7F0, 0x1p-40",
    "1e-9, 3944B82FA09B5A54, 0x1p-40",
    "1, 4110000000000000, 0",
    "-2.5, C128000000000000, 0",
    "0, 0, 0"
  })
  void reals_areThoseOfTheFormat(double value, String hex, double relative) {
    long bits = Long.parseUnsignedLong(hex, 16);
    assertEquals(value, GdsReal.value(bits), Math.abs(value) * relative);
    assertEquals(value, GdsReal.value(GdsReal.bits(value)), 0x1p-55 * Math.abs(value));
    assertTrue(Math.abs(bits - GdsReal.bits(value)) <= 0x10, Long.toHexString(GdsReal.bits(value)));
  }

  @Test
  void whatIsWritten_isReadBack() {
    OutlineSet set = TestOutlines.rich(OutlineFrame.DIE_UM);
    OutlineSet back = parse(GdsWriter.bytes(set, MOMENT));
    TestOutlines.assertSame(set, back, 0.001);
    assertEquals(set.photo().sha256(), back.photo().sha256());
    assertEquals(set.photo().umPerPx(), back.photo().umPerPx());
    assertEquals(set.extent(), back.extent());
    assertEquals(2, TestOutlines.get(back, "PAD1").shape().holes().size());
    assertArrayEquals(GdsWriter.bytes(set, MOMENT), GdsWriter.bytes(set, MOMENT));
  }

  @Test
  void header_isThatOfTheFormat() {
    // HEADER of 6 bytes with release 600, BGNLIB of 28 bytes with year 2026 and month 1.
    byte[] b = GdsWriter.bytes(TestOutlines.rich(OutlineFrame.DIE_UM), MOMENT);
    assertArrayEquals(
        new byte[] {0, 6, 0, 2, 2, 88, 0, 28, 1, 2, 7, (byte) 0xEA, 0, 1, 0, 31, 0, 12, 0, 34},
        Arrays.copyOf(b, 20));
  }

  @Test
  void polygonsOfTooManyCorners_areSplit_andJoinedAgain() {
    OutlineSet set =
        new OutlineSet(
            OutlineFrame.DIE_UM,
            Optional.empty(),
            PhotoLink.UNKNOWN,
            List.of(
                ClassedOutline.region(
                    "MAC1",
                    DieClass.HARD_MACRO,
                    new Outline(TestOutlines.star(5000, 5000, 4000, 9_000), List.of()))));
    byte[] b = GdsWriter.bytes(set, MOMENT);
    GdsLibrary library = GdsLibrary.read(b, "o.gds");
    List<GdsLibrary.Shape> shapes = library.structures().get(GdsWriter.STRUCTURE).shapes();
    assertTrue(shapes.size() >= 2, "pieces: " + shapes.size());
    assertTrue(shapes.stream().allMatch(s -> s.ring().size() <= GdsWriter.MOST_CORNERS));
    assertEquals(
        TestOutlines.area(set, "MAC1"),
        TestOutlines.area(parse(b), "MAC1"),
        1e-6 * TestOutlines.area(set, "MAC1"));
  }

  /** Every cut of the file, and every byte changed at random, is refused or read, never a fault. */
  @Test
  void damagedStreams_areRefusedInASentence() {
    byte[] good =
        GdsWriter.bytes(SurveyOutlines.of(org.diesurvey.survey.SmallSurvey.of(true)), MOMENT);
    for (int n = 4; n < good.length; n++) {
      byte[] cut = Arrays.copyOf(good, n);
      DieInputException e = assertThrows(DieInputException.class, () -> parse(cut));
      assertTrue(e.getMessage().startsWith("o.gds: the GDSII stream "), e.getMessage());
    }
    Random random = new Random(6);
    int refused = 0;
    for (int i = 0; i < 400; i++) {
      byte[] bad = good.clone();
      bad[4 + random.nextInt(bad.length - 4)] ^= (byte) (1 << random.nextInt(8));
      try {
        parse(bad);
      } catch (DieInputException e) {
        refused++;
      }
    }
    assertTrue(refused > 100, "refused " + refused);
  }

  @Test
  void boundariesOfAnotherLayer_areRefusedWithTheMap() {
    byte[] b = GdsWriter.bytes(TestOutlines.rich(OutlineFrame.DIE_UM), MOMENT);
    // The first LAYER record (00 06 0D 02) is that of the die outline; make it layer 77.
    for (int i = 0; ; i++) {
      if (b[i] == 0 && b[i + 1] == 6 && b[i + 2] == 0x0D && b[i + 3] == 2) {
        b[i + 5] = 77;
        break;
      }
    }
    DieInputException e = assertThrows(DieInputException.class, () -> parse(b));
    assertTrue(
        e.getMessage().contains("layer 77, datatype 0 is not in the layer map (0 die outline, 1"),
        e.getMessage());
  }

  @Test
  @Tag("slow")
  void areasOfOurFile_byTheIndependentReader() throws Exception {
    OutlineSet set = TestOutlines.rich(OutlineFrame.DIE_UM);
    Path file = folder.resolve("o.gds");
    Files.write(file, GdsWriter.bytes(set, MOMENT));
    Map<String, Double> seen =
        Gdspy.figures(
            folder,
            60,
            """
            import gdspy, sys
            lib = gdspy.GdsLibrary(infile=sys.argv[1], units="import")
            print("unit", repr(lib.unit))
            print("precision", repr(lib.precision))
            for (l, d), a in lib.top_level()[0].area(True).items(): print("%d/%d" % (l, d), repr(a))
            """,
            file);
    assertEquals(1e-6, seen.get("unit"), 1e-18);
    assertEquals(1e-9, seen.get("precision"), 1e-21);
    Map<String, Double> expected = new TreeMap<>(Map.of("0/0", 800_000.0));
    for (ClassedOutline o : set.outlines()) {
      expected.merge(
          GdsLayer.of(o).layer() + "/" + GdsLayer.of(o).datatype(),
          TestOutlines.area(set, o.id()),
          Double::sum);
    }
    expected.forEach((layer, a) -> assertEquals(1, seen.get(layer) / a, 1e-6, layer));
    assertEquals(expected.size() + 2, seen.size());
  }

  @Test
  @Tag("slow")
  void fileOfTheIndependentWriter_withPlacedStructures_isReadFlat() throws Exception {
    Path file = folder.resolve("other.gds");
    Map<String, Double> written =
        Gdspy.figures(
            folder,
            60,
            """
            import gdspy, sys
            lib = gdspy.GdsLibrary("OTHER", unit=1e-6, precision=1e-9)
            part = gdspy.Cell("PART", exclude_from_current=True)
            part.add(gdspy.boolean(gdspy.Rectangle((0, 0), (30, 20)),
                                   gdspy.Rectangle((5, 5), (25, 15)), "not", layer=2))
            part.add(gdspy.Polygon([(40, 0), (60, 0), (50, 18)], layer=3))
            top = gdspy.Cell("TOP", exclude_from_current=True)
            top.add(gdspy.CellReference(part, (100, 50)))
            top.add(gdspy.CellReference(part, (150, 250), rotation=30, magnification=1.5,
                                        x_reflection=True))
            top.add(gdspy.CellArray(part, 3, 2, (80, 40), origin=(400, 100), rotation=90))
            top.add(gdspy.Rectangle((0, 0), (600, 400), layer=0))
            top.add(gdspy.Label("a label", (5, 5)))
            lib.add(part); lib.add(top)
            lib.write_gds(sys.argv[1])
            for (l, d), a in top.area(True).items(): print("%d/%d" % (l, d), repr(a))
            box = top.get_bounding_box()
            flat = top.copy("FLAT", exclude_from_current=True, deep_copy=True).flatten()
            for i, p in enumerate(flat.get_polygons(by_spec=True)[(3, 0)]):
                print("x%d" % i, p[:, 0].min()); print("y%d" % i, p[:, 1].max())
            """,
            file);
    OutlineSet set = OutlineFiles.read(file);
    assertEquals(Optional.of(new Extent(600, 400)), set.extent());
    assertEquals(8, set.regions().stream().filter(o -> o.dieClass() == DieClass.LOGIC).count());
    for (DieClass c : List.of(DieClass.HARD_MACRO, DieClass.LOGIC)) {
      double sum =
          set.regions().stream()
              .filter(o -> o.dieClass() == c)
              .mapToDouble(o -> TestOutlines.area(set, o.id()))
              .sum();
      // Rotated corners lie on the grid of 1 nm in neither program.
      assertEquals(1, sum / written.get(c.code() + "/0"), 1e-6, c.label());
    }
    double[] left =
        set.regions().stream()
            .filter(o -> o.dieClass() == DieClass.LOGIC)
            .mapToDouble(o -> OutlineShapes.polygon(o.shape()).getEnvelopeInternal().getMinX())
            .sorted()
            .toArray();
    double[] expected =
        written.entrySet().stream()
            .filter(e -> e.getKey().startsWith("x"))
            .mapToDouble(Map.Entry::getValue)
            .sorted()
            .toArray();
    assertArrayEquals(expected, left, 1e-3);
  }
}
