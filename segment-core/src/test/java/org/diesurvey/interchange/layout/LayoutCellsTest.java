package org.diesurvey.interchange.layout;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.Optional;
import org.diesurvey.interchange.OutlineShapes;
import org.diesurvey.interchange.TestOutlines;
import org.diesurvey.interchange.gds.GdsBytes;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.util.AffineTransformation;

/** Streams built record by record, in nm, as layouts to make masks of. */
class LayoutCellsTest {
  private static final int LAYER = 3;

  @ParameterizedTest
  @CsvSource({"true, 2, 90", "false, 1.5, 30", "false, 1, 180"})
  void boxOfALayout_isThatOfItsPlacedParts(boolean mirrored, double scale, double degrees) {
    byte[] b =
        new GdsBytes()
            .cell("PART")
            .rectangle(LAYER, 0, 1000, 2000, 4000, 4000)
            .end()
            .cell("TOP")
            .place("PART", mirrored, scale, degrees, 50_000, 60_000)
            .array("PART", 0, 0, 3, 2, 5000, 7000)
            .end()
            .bytes();
    LayoutLayers layers =
        LayoutLayers.parse(List.of("layer,datatype,bit", LAYER + ",0,diffusion"), "layers.csv");
    LayoutCells cells = LayoutCells.read(b, layers, "o.gds");
    assertEquals(List.of("TOP"), cells.tops());
    Geometry one = OutlineShapes.polygon(TestOutlines.box(1000, 2000, 3000, 2000));
    Envelope expected =
        AffineTransformation.scaleInstance(1, mirrored ? -1 : 1)
            .scale(scale, scale)
            .rotate(Math.toRadians(degrees))
            .translate(50_000, 60_000)
            .transform(one)
            .getEnvelopeInternal();
    // From (0, 0) to two steps of 5000 and one of 7000.
    expected.expandToInclude(new Envelope(1000, 14_000, 2000, 11_000));
    LayoutCells.Box box = cells.box("TOP", LayoutBit.DIFFUSION.bit()).orElseThrow();
    assertEquals(expected.getMinX(), box.x0(), 1e-6);
    assertEquals(expected.getMaxX(), box.x1(), 1e-6);
    assertEquals(expected.getMinY(), box.y0(), 1e-6);
    assertEquals(expected.getMaxY(), box.y1(), 1e-6);
    assertEquals(Optional.empty(), cells.box("TOP", LayoutBit.N_WELL.bit()));
  }
}
