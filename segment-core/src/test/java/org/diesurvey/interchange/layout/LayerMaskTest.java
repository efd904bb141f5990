package org.diesurvey.interchange.layout;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.zip.GZIPOutputStream;
import org.diesurvey.DieInputException;
import org.diesurvey.interchange.gds.GdsBytes;
import org.diesurvey.interchange.gds.Gdspy;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Masks of small layouts. The independent program is gdspy 1.4 (Debian package python3-gdspy);
 * where it is absent that check is skipped and says so.
 */
class LayerMaskTest {
  private static final LayoutLayers LAYERS =
      LayoutLayers.parse(
          List.of(
              "layer,datatype,bit",
              "# active and taps",
              "1,0,diffusion",
              "1,7,diffusion",
              "2,0,polysilicon",
              "3,0,n-well",
              "3,0,p-implant",
              "4,0,contact"),
          "layers.csv");

  @TempDir Path folder;

  private static LayerMaskSettings settings(String cell, String... bitCells) {
    return new LayerMaskSettings(
        Optional.of(cell),
        LAYERS,
        0.1,
        "memory",
        "test",
        "invented",
        OptionalDouble.empty(),
        List.of(bitCells),
        Optional.empty());
  }

  private static LayerMaskSettings in(LayerMaskSettings s, LayoutWindow window) {
    return new LayerMaskSettings(
        s.cell(),
        s.layers(),
        s.umPerPx(),
        s.blockClass(),
        s.kind(),
        s.technology(),
        s.nodeNm(),
        s.bitCells(),
        Optional.of(window));
  }

  private Path file(byte[] bytes) throws IOException {
    return Files.write(folder.resolve("layout.gds"), bytes);
  }

  private String refusal(byte[] bytes, LayerMaskSettings s) throws IOException {
    Path f = file(bytes);
    return assertThrows(DieInputException.class, () -> LayerMask.of(f, s)).getMessage();
  }

  /** Bit cells of 1 x 0.8 um with a lattice of 1.2 x 1 um, 8 x 6 of them, and some of it apart. */
  private static GdsBytes memory() {
    return new GdsBytes()
        .cell("BIT")
        .rectangle(1, 0, 0, 0, 1000, 400)
        .rectangle(2, 0, 300, 0, 500, 800)
        .end()
        .cell("ROWS")
        .array("BIT", 0, 0, 8, 6, 1200, 1000)
        .end()
        .cell("RAM")
        .place("ROWS", 2000, 1000)
        .place("BIT", 40000, 1000)
        .rectangle(1, 0, 0, 0, 45000, 500)
        .rectangle(9, 0, -90000, 0, 90000, 500)
        .end();
  }

  @Test
  void pixels_areThoseOfTheLayout_topRowFirst() throws IOException {
    byte[] gds =
        new GdsBytes()
            .cell("A")
            .rectangle(1, 0, 0, 0, 1000, 300)
            .rectangle(1, 7, 900, 0, 1000, 2000)
            .rectangle(2, 0, 0, 1950, 250, 2000)
            .rectangle(3, 0, 0, 1000, 100, 1100)
            .end()
            .bytes();
    LayerMask m = LayerMask.of(file(gds), settings("A"));
    assertEquals(10, m.picture().width());
    assertEquals(20, m.picture().height());
    // Half covered in height, whole in width; then half of that.
    assertEquals(2, m.picture().get(0, 0));
    assertEquals(2, m.picture().get(1, 0));
    assertEquals(0, m.picture().get(2, 0));
    assertEquals(1, m.picture().get(9, 0));
    assertEquals(4 | 32, m.picture().get(0, 9));
    assertEquals(0, m.picture().get(0, 16));
    assertEquals(1, m.picture().get(0, 17));
    assertEquals(0.3 + 0.1 * 1.7, m.areaUm2(LayoutBit.DIFFUSION), 1e-9);
  }

  @Test
  void bitCellArrays_areFoundFromTheHierarchy() throws IOException {
    LayerMask m = LayerMask.of(file(memory().bytes()), settings("RAM", "BIT"));
    JsonNode r = new ObjectMapper().readTree(m.json("ram"));
    assertEquals(1, r.get("inner_arrays_um").size());
    JsonNode a = r.get("inner_arrays_um").get(0);
    // The block is 6.8 um high; the array reaches from 1 to 6.8 um.
    double[] expected = {2, 0, 7 * 1.2 + 1, 5 + 0.8};
    for (int i = 0; i < 4; i++) {
      assertEquals(expected[i], a.get(i).asDouble(), 1e-6, "member " + i);
    }
    assertEquals(1.2, r.get("bit_cell_um").get(0).asDouble(), 1e-6);
    assertEquals(1, r.get("bit_cell_um").get(1).asDouble(), 1e-6);
    assertEquals(49, r.get("bit_cells_in_picture").asInt());
    assertEquals(45, r.get("width_um").asDouble(), 1e-9);
    assertTrue(r.get("boundary_is_block_edge").asBoolean());
    assertEquals("RAM", r.get("source").get("cell").asText());
  }

  /**
   * Every member of the record beside a mask, for a block of 1 x 2 um that is a quarter covered.
   */
  @Test
  void record_hasEveryMember() throws Exception {
    byte[] gds =
        new GdsBytes()
            .cell("A")
            .rectangle(1, 0, 0, 0, 1000, 500)
            .rectangle(2, 0, 0, 0, 100, 2000)
            .end()
            .bytes();
    LayerMaskSettings s =
        new LayerMaskSettings(
            Optional.of("A"),
            LAYERS,
            0.1,
            "logic",
            "a kind",
            "a technology",
            OptionalDouble.of(130),
            List.of(),
            Optional.empty());
    String sha256 =
        java.util.HexFormat.of()
            .formatHex(java.security.MessageDigest.getInstance("SHA-256").digest(gds));
    JsonNode expected =
        new ObjectMapper()
            .readTree(
                """
                {"name": "block", "class": "logic", "kind": "a kind",
                 "technology": "a technology", "node_nm": 130.0, "um_per_px": 0.1,
                 "width_um": 1.0, "height_um": 2.0, "boundary_is_block_edge": true,
                 "source": {"file_name": "layout.gds", "sha256": "%s", "cell": "A"}}
                """
                    .formatted(sha256));
    ObjectNode record =
        (ObjectNode) new ObjectMapper().readTree(LayerMask.of(file(gds), s).json("block"));
    JsonNode coverage = record.remove("coverage");
    assertEquals(expected, record);
    assertEquals(LayoutBit.values().length, coverage.size());
    assertEquals(0.25, coverage.get(LayoutBit.DIFFUSION.member()).asDouble(), 1e-9);
    assertEquals(0.1, coverage.get(LayoutBit.POLYSILICON.member()).asDouble(), 1e-9);
    assertEquals(0, coverage.get(LayoutBit.N_WELL.member()).asDouble());
  }

  /** Twelve bit cells are an array, eleven are none; clusters 4 um apart are two. */
  @Test
  void arrays_areClustersOfAtLeastTwelveCells() {
    List<LayoutCells.Box> bits = new java.util.ArrayList<>();
    for (int i = 0; i < 12; i++) {
      bits.add(new LayoutCells.Box(5 + i, 5, 6 + i, 7));
      bits.add(new LayoutCells.Box(5 + i, 11, 6 + i, 13));
    }
    assertEquals(
        List.of(new LayoutCells.Box(5, 5, 17, 7), new LayoutCells.Box(5, 11, 17, 13)),
        LayoutArrays.of(bits, 40, 30));
    assertEquals(
        List.of(new LayoutCells.Box(5, 11, 17, 13)), LayoutArrays.of(bits.subList(1, 24), 40, 30));
    // The picture ends at 10 um along x and at 12 um along y.
    assertEquals(
        List.of(new LayoutCells.Box(5, 5, 10, 7), new LayoutCells.Box(5, 11, 10, 12)),
        LayoutArrays.of(bits, 10, 12));
    assertEquals(List.of(), LayoutArrays.of(List.of(), 40, 30));
  }

  /** Mirrored cells stand in pairs, 0.8 and 1.2 um apart: the pitch is 1 um. */
  @Test
  void pitch_isHalfOfTwoSteps() {
    List<LayoutCells.Box> bits = new java.util.ArrayList<>();
    for (int i = 0; i < 9; i++) {
      double x = i + (i % 2 == 0 ? 0 : -0.2);
      bits.add(new LayoutCells.Box(x, 0, x + 0.5, 1));
      bits.add(new LayoutCells.Box(x + 0.01, 3, x + 0.51, 4));
    }
    assertEquals(1, LayoutArrays.pitch(bits, b -> (b.x0() + b.x1()) / 2).getAsDouble(), 1e-9);
    assertTrue(LayoutArrays.pitch(bits, b -> b.y0()).isEmpty(), "two places");
  }

  @Test
  void window_cutsPictureAndArrays() throws IOException {
    LayerMask m =
        LayerMask.of(
            file(memory().bytes()), in(settings("RAM", "BIT"), new LayoutWindow(4.4, 1, 8, 4)));
    JsonNode r = new ObjectMapper().readTree(m.json("part"));
    assertEquals(36, m.picture().width());
    assertEquals(30, m.picture().height());
    assertEquals("[0.0,0.0,3.6,3.0]", r.get("inner_arrays_um").get(0).toString());
    assertEquals(9, r.get("bit_cells_in_picture").asInt());
    assertEquals(45, r.get("crop_of_um").get(0).asDouble(), 1e-9);
    assertEquals(9 * 0.4, m.areaUm2(LayoutBit.DIFFUSION), 1e-9);
  }

  @Test
  void packedLayout_givesTheSameMask() throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (GZIPOutputStream zip = new GZIPOutputStream(out)) {
      zip.write(memory().bytes());
    }
    Path packed = Files.write(folder.resolve("layout.gds.gz"), out.toByteArray());
    assertArrayEquals(
        LayerMask.of(file(memory().bytes()), settings("RAM")).png(),
        LayerMask.of(packed, settings("RAM")).png());
  }

  @Test
  void unusableLayouts_areRefusedInASentence() throws IOException {
    byte[] good = memory().bytes();
    assertTrue(refusal(good, settings("ROM")).contains("no structure 'ROM'; the top structures"));
    assertTrue(refusal(good, settings("RAM", "CELL")).contains("places no bit cell CELL here"));
    byte[] loop =
        new GdsBytes().cell("A").place("B", 0, 0).end().cell("B").place("A", 5, 5).end().bytes();
    assertTrue(refusal(loop, settings("A")).contains("'A' places itself"));
    byte[] lost = new GdsBytes().cell("A").place("B", 0, 0).end().bytes();
    assertTrue(refusal(lost, settings("A")).contains("'B' is placed but not in the stream"));
    byte[] other = new GdsBytes().cell("A").rectangle(9, 9, 0, 0, 10, 10).end().bytes();
    assertTrue(refusal(other, settings("A")).contains("no shape on a layer of the layer map"));
    byte[] wide =
        new GdsBytes().cell("A").rectangle(1, 0, 0, 0, 2_000_000, 2_000_000).end().bytes();
    assertTrue(refusal(wide, settings("A")).contains("20000 x 20000 px, more than 100 MP"));
    for (int n : new int[] {3, 30, good.length / 2, good.length - 2}) {
      assertTrue(refusal(Arrays.copyOf(good, n), settings("RAM")).contains("the GDSII stream"));
    }
  }

  @Test
  void wrongLayerMaps_areRefusedWithTheirLine() {
    for (List<String> lines :
        List.of(
            List.of("layer,bit", "1,diffusion"),
            List.of("layer,datatype,bit", "1,0,metal"),
            List.of("layer,datatype,bit", "1,-1,diffusion"),
            List.of("layer,datatype,bit", "1,diffusion"),
            List.of("layer,datatype,bit"))) {
      DieInputException e =
          assertThrows(DieInputException.class, () -> LayoutLayers.parse(lines, "l.csv"));
      assertTrue(e.getMessage().startsWith("l.csv: "), e.getMessage());
    }
  }

  /** Hierarchy with arrays, mirrors, right and other angles, sizes, overlaps and paths. */
  @Test
  @Tag("slow")
  void areasByLayer_areThoseOfTheIndependentProgram() throws Exception {
    Path file = folder.resolve("other.gds");
    Map<String, Double> other =
        Gdspy.figures(
            folder,
            300,
            """
            import gdspy, sys
            lib = gdspy.GdsLibrary("OTHER", unit=1e-6, precision=1e-9)
            part = gdspy.Cell("PART", exclude_from_current=True)
            part.add(gdspy.Rectangle((0, 0), (3, 2), layer=1))
            part.add(gdspy.Rectangle((1, -1), (1.4, 3), layer=2))
            part.add(gdspy.Polygon([(4, 0), (6, 0), (5, 1.8)], layer=1, datatype=7))
            part.add(gdspy.FlexPath([(0, 3), (2, 3), (2, 5), (4, 5)], 0.6, layer=2,
                                    ends="flush", gdsii_path=True))
            part.add(gdspy.FlexPath([(5, 3), (6, 4), (8, 4)], 0.4, layer=4,
                                    ends="extended", gdsii_path=True))
            part.add(gdspy.FlexPath([(5, 6), (9, 6)], 0.6, layer=4,
                                    ends=(0.2, 0.7), gdsii_path=True))
            rows = gdspy.Cell("ROWS", exclude_from_current=True)
            rows.add(gdspy.CellArray(part, 4, 3, (7, 5.5)))
            top = gdspy.Cell("TOP", exclude_from_current=True)
            top.add(gdspy.CellReference(rows, (10, 5)))
            top.add(gdspy.CellReference(rows, (60, 10), rotation=90, x_reflection=True))
            top.add(gdspy.CellReference(part, (20, 50), rotation=30, magnification=2.5,
                                        x_reflection=True))
            top.add(gdspy.CellArray(part, 3, 2, (9, 8), origin=(40, 60), rotation=180))
            top.add(gdspy.Rectangle((0, 0), (40, 30), layer=3))
            top.add(gdspy.Rectangle((35, 25), (50, 60), layer=3))
            top.add(gdspy.Label("a label", (5, 5)))
            for c in (part, rows, top): lib.add(c)
            lib.write_gds(sys.argv[1])
            back = gdspy.GdsLibrary(infile=sys.argv[1]).cell_dict["TOP"]
            polygons = back.get_polygons(by_spec=True)
            for layers in ([(1, 0), (1, 7)], [(2, 0)], [(3, 0)], [(4, 0)]):
                all = [p for l in layers for p in polygons[l]]
                joined = gdspy.boolean(all, None, "or", precision=1e-6)
                print("layer%d" % layers[0][0], repr(joined.area()))
                print("parts%d" % layers[0][0], sum(gdspy.Polygon(p).area() for p in all))
            """,
            file);
    LayerMask m = LayerMask.of(file, in(settings("TOP"), new LayoutWindow(-20, -20, 100, 100)));
    Map<LayoutBit, String> layers =
        Map.of(
            LayoutBit.DIFFUSION, "1",
            LayoutBit.POLYSILICON, "2",
            LayoutBit.N_WELL, "3",
            LayoutBit.P_IMPLANT, "3",
            LayoutBit.CONTACT, "4");
    layers.forEach(
        (bit, layer) -> {
          double area = other.get("layer" + layer);
          assertEquals(1, m.areaUm2(bit) / area, 2e-5, bit.word());
          // Pixels are set or not; over many edges that evens out.
          double set = 0;
          for (byte v : m.picture().array()) {
            set += (v & bit.bit()) != 0 ? 0.01 : 0;
          }
          assertEquals(1, set / area, 0.02, bit.word());
        });
    assertTrue(other.get("parts3") > 1.01 * other.get("layer3"), "the wells do not overlap");
  }
}
