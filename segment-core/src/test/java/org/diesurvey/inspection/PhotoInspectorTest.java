package org.diesurvey.inspection;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.networknt.schema.InputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import javax.imageio.ImageIO;
import org.diesurvey.DieInputException;
import org.diesurvey.SharedData;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.photo.DiePhoto;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class PhotoInspectorTest {
  /** What may be said of a good photograph. */
  private static final Set<String> HARMLESS = Set.of("no-die-edge", "stitching-seams");

  @TempDir Path temp;

  private static Schema schema() throws IOException {
    try (InputStream in =
        InspectionJson.class.getResourceAsStream(InspectionJson.SCHEMA_RESOURCE)) {
      return SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
          .getSchema(new String(in.readAllBytes(), StandardCharsets.UTF_8));
    }
  }

  private Path drawn() throws IOException {
    GreyPhoto grey = GreyPhoto.of(GreyPhoto.clean(7, 0.8));
    BufferedImage image =
        new BufferedImage(grey.width(), grey.height(), BufferedImage.TYPE_BYTE_GRAY);
    for (int y = 0; y < grey.height(); y++) {
      for (int x = 0; x < grey.width(); x++) {
        image.getRaster().setSample(x, y, 0, Math.round(255 * grey.raster().get(x, y)));
      }
    }
    Path file = temp.resolve("drawn.png");
    ImageIO.write(image, "png", file.toFile());
    return file;
  }

  @Test
  void document_fitsItsSchema_andRepeatsByteForByte() throws IOException {
    InspectionSettings all =
        InspectionSettings.defaults()
            .withScale(Calibration.ofPixelPitch(0.5, 0.002))
            .withAperture(0.9)
            .withNodeNm(90);
    try (DiePhoto photo = DiePhoto.open(drawn())) {
      for (InspectionSettings s : List.of(all, InspectionSettings.defaults())) {
        Inspection in = PhotoInspector.inspect(photo, s);
        byte[] text = InspectionJson.write(in, Optional.empty());
        assertArrayEquals(
            text, InspectionJson.write(PhotoInspector.inspect(photo, s), Optional.empty()));
        String json = new String(text, StandardCharsets.UTF_8);
        assertEquals("[]", schema().validate(json, InputFormat.JSON).toString());
        ObjectNode more = (ObjectNode) new ObjectMapper().readTree(json);
        more.put("surprise", 1);
        assertFalse(schema().validate(more.toString(), InputFormat.JSON).isEmpty());
      }
    }
  }

  @Test
  void drawnFieldWithoutFaults_hasNoFindingButTheMissingEdge() throws IOException {
    try (DiePhoto photo = DiePhoto.open(drawn())) {
      Inspection in = PhotoInspector.inspect(photo, InspectionSettings.defaults());
      assertTrue(HARMLESS.containsAll(ids(in)), ids(in).toString());
    }
  }

  @Test
  void samplesThatWereScaled_areAFinding() throws IOException {
    Path file = Path.of("src/test/resources/org/diesurvey/photo/float-zip3.tif");
    try (DiePhoto photo = DiePhoto.open(file)) {
      Inspection in = PhotoInspector.inspect(photo, InspectionSettings.defaults());
      Finding scaled =
          in.findings().stream().filter(f -> f.id().equals("samples-converted")).findFirst().get();
      assertTrue(
          scaled
              .sentence()
              .startsWith("Floating-point samples of 32 bits were scaled to whole numbers of 16"),
          scaled.sentence());
    }
  }

  private static Set<String> ids(Inspection in) {
    return in.findings().stream().map(Finding::id).collect(Collectors.toSet());
  }

  @Test
  void blackPhotograph_isRefused() throws IOException {
    Path file = temp.resolve("black.png");
    ImageIO.write(new BufferedImage(300, 200, BufferedImage.TYPE_BYTE_GRAY), "png", file.toFile());
    try (DiePhoto photo = DiePhoto.open(file)) {
      DieInputException e =
          assertThrows(
              DieInputException.class,
              () -> PhotoInspector.inspect(photo, InspectionSettings.defaults()));
      assertEquals(DieInputException.Reason.PHOTO_WITHOUT_CONTENT, e.reason());
    }
  }

  /** One of the rendered dies and a real photograph, both sharp, clean and evenly lit. */
  @Test
  void goodPhotographs_giveNoFalseAlarm() {
    for (String file : List.of("open-dies/o5_revA.jpg", "real-photos/block-a-diffusion.jpg")) {
      try (DiePhoto photo = DiePhoto.open(SharedData.require(file))) {
        Inspection in = PhotoInspector.inspect(photo, InspectionSettings.defaults());
        assertTrue(HARMLESS.containsAll(ids(in)), file + ": " + in.findings());
      }
    }
  }

  /** A picture once stored as a strong JPEG keeps the grid when it is stored without loss. */
  @Test
  void gridOfAnOldJpeg_isSeen() throws IOException {
    GreyPhoto clean = GreyPhoto.of(GreyPhoto.clean(20, 0.6)).blurred(0.8);
    double before = BandScan.of(clean, clean.whole()).blockGrid().ratio();
    assertTrue(before < 1.3, "without: " + before);
    GreyPhoto grid = GridPhoto.throughJpeg(clean, 0.4f);
    assertTrue(BandScan.of(grid, grid.whole()).blockGrid().ratio() > 1.6);
    GreyPhoto crop = grid.part(3, 5, grid.width() - 3, grid.height() - 5);
    assertTrue(BandScan.of(crop, crop.whole()).blockGrid().ratio() > 1.6, "shifted grid");
  }
}
