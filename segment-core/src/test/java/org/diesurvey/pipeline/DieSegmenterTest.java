package org.diesurvey.pipeline;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.networknt.schema.InputFormat;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.Rectangle;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import javax.imageio.ImageIO;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.calibration.ScaleOrigin;
import org.diesurvey.classification.DieClass;
import org.diesurvey.classification.UnclearReason;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.quantity.Measured;
import org.diesurvey.survey.ClassTotal;
import org.diesurvey.survey.Notice;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.SurveyRegion;
import org.diesurvey.survey.json.SurveyJson;
import org.diesurvey.synthetic.DieDrawing;
import org.diesurvey.synthetic.DieFiles;
import org.diesurvey.synthetic.DieTruth;
import org.diesurvey.synthetic.DrawOptions;
import org.diesurvey.synthetic.DrawnDie;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Polygon;

/** One small drawn die from photograph to document. */
class DieSegmenterTest {
  @TempDir private static Path folder;

  private static Path photo;
  private static DieTruth truth;
  private static Survey survey;

  @BeforeAll
  static void drawAndSurvey() throws IOException {
    DrawnDie die =
        DieDrawing.draw(
            11,
            DrawOptions.defaults()
                .withUmPerPx(0.8)
                .withMaxMegapixels(1.3)
                .withFraming(DrawOptions.Framing.WHOLE_DIE)
                .withStyle(DrawOptions.Style.SHOWPIECE)
                .withSeverity(0.5));
    truth = die.truth();
    photo = DieFiles.write(die, folder, "small", DieFiles.Format.PNG);
    survey = survey(2, known(0.002));
  }

  private static ScaleInput known(double u) {
    return new ScaleInput.Known(Calibration.ofPixelPitch(truth.umPerPx(), u));
  }

  private static Survey survey(int threads, ScaleInput scale) {
    return survey(photo, threads, scale);
  }

  private static Survey survey(Path photo, int threads, ScaleInput scale) {
    DieSegmenter segmenter =
        DieSegmenter.withDefaults().with(SegmentSettings.defaults().withThreads(threads));
    try (DiePhoto p = DiePhoto.open(photo)) {
      return segmenter.survey(p, scale).survey();
    }
  }

  private static byte[] json(Survey s) {
    return SurveyJson.write(s, Optional.empty());
  }

  private static List<String> notices(Survey s) {
    return s.notices().stream().map(Notice::id).toList();
  }

  @Test
  void numberOfThreads_changesNoByteOfTheDocument() {
    assertArrayEquals(json(survey), json(survey(1, known(0.002))));
  }

  @Test
  void document_satisfiesTheSchema() {
    var schema =
        SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
            .getSchema(SurveyJson.schema());
    String text = new String(json(survey), StandardCharsets.UTF_8);
    assertEquals("[]", schema.validate(text, InputFormat.JSON).toString());
  }

  @Test
  void dieFrame_isThatOfTheDrawing() {
    assertTrue(survey.die().edgeFound());
    assertEquals(truth.rotationDeg(), survey.die().rotationDeg(), 0.15);
    assertWithin(truth.dieWidthUm() / 1000, survey.die().widthMm().orElseThrow());
    assertWithin(truth.dieHeightUm() / 1000, survey.die().heightMm().orElseThrow());
  }

  /** Within four standard uncertainties, and these below 2 %. */
  private static void assertWithin(double truth, Measured is) {
    assertTrue(Math.abs(is.value() - truth) < 4 * is.standardUncertainty(), truth + " v. " + is);
    assertTrue(is.relativeUncertainty() < 0.02, "" + is);
  }

  /** A field of a mosaic that nobody photographed, over memory, logic and ground. */
  @Test
  void blackRectangleInsideTheDie_isMissing_andNoClass() throws IOException {
    BufferedImage picture = ImageIO.read(photo.toFile());
    Rectangle field = new Rectangle(378, 555, 315, 202);
    Graphics2D pen = picture.createGraphics();
    pen.setColor(Color.BLACK);
    pen.fill(field);
    pen.dispose();
    Path file = folder.resolve("field.png");
    ImageIO.write(picture, "png", file.toFile());
    Survey s = survey(file, 2, known(0.002));
    Polygon black = Outlines.rectangle(field.x, field.y, field.width, field.height);
    List<SurveyRegion> missing =
        s.regions().stream()
            .filter(r -> r.verdict().reason().equals(Optional.of(UnclearReason.MISSING)))
            .toList();
    assertEquals(1, missing.size());
    Polygon found = Outlines.polygon(missing.get(0).inPhoto().outline());
    assertTrue(found.intersection(black).getArea() > 0.97 * black.getArea());
    assertTrue(found.getArea() < 1.08 * black.getArea(), found.getArea() + " px");
    assertEquals(DieClass.UNCLEAR, missing.get(0).dieClass());
    for (SurveyRegion r : s.regions()) {
      double inside = Outlines.polygon(r.inPhoto().outline()).intersection(black).getArea();
      assertTrue(r == missing.get(0) || inside < 0.02 * black.getArea(), r.id() + " " + inside);
    }
    // The rest of the die is called what it was called before.
    double same = 0;
    double all = 0;
    for (SurveyRegion before : survey.regions()) {
      Geometry left = Outlines.polygon(before.inPhoto().outline()).difference(found);
      all += left.getArea();
      for (SurveyRegion after : s.regions()) {
        same +=
            after.dieClass() == before.dieClass()
                ? Outlines.polygon(after.inPhoto().outline()).intersection(left).getArea()
                : 0;
      }
    }
    assertTrue(same > 0.93 * all, same + " of " + all);
  }

  @Test
  void showpiece_hasMemoryAndLogicAndARing() {
    for (DieClass c : List.of(DieClass.MEMORY_ARRAY, DieClass.LOGIC, DieClass.PAD_RING)) {
      assertTrue(survey.regions().stream().anyMatch(r -> r.dieClass() == c), "no " + c.label());
    }
    long ids = survey.regions().stream().map(SurveyRegion::id).distinct().count();
    assertEquals(survey.regions().size(), ids);
  }

  @Test
  void regions_doNotOverlap() {
    List<Polygon> all = new ArrayList<>();
    for (SurveyRegion r : survey.regions()) {
      Polygon p = Outlines.polygon(r.inPhoto().outline());
      assertTrue(p.isValid(), r.id());
      for (Polygon q : all) {
        // Corners are rounded to 0.01 px.
        double slack = 0.01 * (p.getLength() + q.getLength());
        assertTrue(p.intersection(q).getArea() <= slack, r.id() + " overlaps another");
      }
      all.add(p);
    }
  }

  @Test
  void shares_sumToAtMostTheDie() {
    double sum = survey.regions().stream().mapToDouble(r -> r.area().shareOfDie()).sum();
    assertTrue(sum <= 1 + 1e-9, "sum " + sum);
    assertTrue(sum > 0.5, "sum " + sum);
    double totals = survey.totals().stream().mapToDouble(ClassTotal::shareOfDie).sum();
    assertEquals(sum, totals, 1e-9);
  }

  @Test
  void areas_areThoseOfTheOutlines() {
    double pixelMm2 = Math.pow(truth.umPerPx(), 2) / 1e6;
    for (SurveyRegion r : survey.regions()) {
      double px = Outlines.polygon(r.inPhoto().outline()).getArea();
      double um2 = Outlines.polygon(r.inDie().orElseThrow().outline()).getArea();
      double mm2 = r.areaMm2().orElseThrow().value();
      assertEquals(px, r.area().px2(), 0.002 * px, r.id());
      assertEquals(px * pixelMm2, mm2, 0.002 * mm2, r.id());
      assertEquals(um2 / 1e6, mm2, 0.002 * mm2, r.id());
      assertTrue(r.confidence() >= 0 && r.confidence() <= 1);
      double p = r.verdict().probabilities().values().stream().mapToDouble(v -> v).sum();
      // The rest speaks for bare ground.
      assertTrue(p > 0 && p <= 1 + 1e-6, r.id());
    }
  }

  @Test
  void totals_areSumsOfTheirRegions() {
    for (ClassTotal t : survey.totals()) {
      List<SurveyRegion> own =
          survey.regions().stream()
              .filter(r -> r.dieClass() == t.dieClass() && r.verdict().reason().equals(t.reason()))
              .toList();
      assertEquals(own.size(), t.regions());
      double mm2 = own.stream().mapToDouble(r -> r.areaMm2().orElseThrow().value()).sum();
      Measured total = t.areaMm2().orElseThrow();
      assertEquals(mm2, total.value(), 1e-9);
      double scale = 2 * 0.002 / truth.umPerPx();
      assertTrue(total.relativeUncertainty() >= scale * 0.999, "below the scale's own: " + total);
    }
  }

  /** The stated die size must lead to the same pitch as the drawing's. */
  @Test
  void dieSize_givesTheDrawingsPitch_whicheverSideIsNamedFirst() {
    double w = truth.dieWidthUm() / 1000;
    double h = truth.dieHeightUm() / 1000;
    Survey straight = survey(2, new ScaleInput.OfDieSize(w, h, 0.002));
    Measured pitch = straight.scale().calibration().orElseThrow().umPerPx();
    assertEquals(truth.umPerPx(), pitch.value(), 0.01 * truth.umPerPx());
    assertEquals(ScaleOrigin.DIE_SIZE, straight.scale().calibration().orElseThrow().origin());
    DieInputException e =
        assertThrows(
            DieInputException.class, () -> survey(2, new ScaleInput.OfDieSize(w, 3 * h, 0.002)));
    assertEquals(Reason.SCALE_CONTRADICTORY, e.reason());
  }

  @Test
  void withoutAScale_thereAreSharesButNoAreas() {
    Survey s = survey(2, ScaleInput.NONE);
    assertTrue(notices(s).contains("no-scale"));
    assertTrue(s.scale().calibration().isEmpty());
    assertTrue(s.scale().inferred().isPresent());
    assertTrue(s.die().areaMm2().isEmpty());
    assertTrue(!s.regions().isEmpty());
    for (SurveyRegion r : s.regions()) {
      assertTrue(r.areaMm2().isEmpty() && r.inDie().isEmpty());
      assertTrue(r.area().shareOfDie() > 0);
    }
    assertTrue(s.totals().stream().allMatch(t -> t.areaMm2().isEmpty()));
  }

  @Test
  void scaleFromTheFilesTag_isUsedWithAWarning() {
    Calibration tag =
        new Calibration(
            new Measured(truth.umPerPx(), 0.01), ScaleOrigin.PHOTO_METADATA, "TIFF resolution");
    Survey s = survey(2, new ScaleInput.Known(tag));
    assertTrue(notices(s).contains("scale-from-metadata"));
    assertTrue(s.die().areaMm2().isPresent());
  }

  @Test
  void scaleWithoutUncertainty_isRemarkedUpon_andAStatedOneIsNot() {
    assertTrue(notices(survey(2, known(0))).contains("scale-without-uncertainty"));
    assertTrue(notices(survey).stream().noneMatch(n -> n.startsWith("scale")));
  }
}
