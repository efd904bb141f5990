package org.diesurvey.comparison;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

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
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.comparison.document.Change;
import org.diesurvey.comparison.document.ChangeKind;
import org.diesurvey.comparison.document.Comparison;
import org.diesurvey.comparison.document.ComparisonJson;
import org.diesurvey.comparison.document.LengthUnit;
import org.diesurvey.comparison.registration.ComparisonSide;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.pipeline.DieSegmenter;
import org.diesurvey.pipeline.ScaleInput;
import org.diesurvey.survey.Point;
import org.diesurvey.synthetic.DieFiles;
import org.diesurvey.synthetic.DrawnDie;
import org.diesurvey.synthetic.RevisionChange;
import org.diesurvey.synthetic.RevisionOptions;
import org.diesurvey.synthetic.RevisionPair;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class LayoutComparerTest {
  private static final RevisionOptions SMALL =
      RevisionOptions.defaults().withMaxMegapixels(1.2).withChanges(2, 3).withGrowth(0);

  @TempDir Path temp;

  private DiePhoto photo(DrawnDie die, String name) throws IOException {
    return DiePhoto.open(DieFiles.write(die, temp, name, DieFiles.Format.PNG));
  }

  private Comparison compared(RevisionPair pair) throws IOException {
    DieSegmenter segmenter = DieSegmenter.withDefaults();
    try (DiePhoto a = photo(pair.first(), "a");
        DiePhoto b = photo(pair.second(), "b")) {
      ScaleInput scaleA = known(pair.truth().firstStatedUmPerPx());
      ScaleInput scaleB = known(pair.truth().secondStatedUmPerPx());
      return new LayoutComparer("test")
          .compare(
              new ComparisonSide(segmenter.survey(a, scaleA), a),
              new ComparisonSide(segmenter.survey(b, scaleB), b))
          .comparison();
    }
  }

  /** The validator is one that this project did not write (JSON Schema draft 2020-12). */
  @Test
  void comparisonOfASmallPair_satisfiesThePublishedSchema() throws IOException {
    Comparison c = compared(RevisionPair.draw(620004, SMALL));
    String schema;
    try (InputStream in = LayoutComparer.class.getResourceAsStream("comparison.schema.json")) {
      schema = new String(in.readAllBytes(), StandardCharsets.UTF_8);
    }
    Schema published =
        SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12).getSchema(schema);
    String json = ComparisonJson.write(c, Optional.empty());
    assertEquals("[]", published.validate(json, InputFormat.JSON).toString());
    String broken = json.replace("\"unit\" : \"", "\"unit\" : \"no such unit ");
    assertTrue(!broken.equals(json), "the unit is written");
    assertTrue(!published.validate(broken, InputFormat.JSON).isEmpty());
  }

  /** Kinds are right on a part of drawn pairs only; this pair guards those against loss. */
  @Test
  void drawnPair_isLaidOnItself_andItsChangesAreNamed() throws IOException {
    RevisionPair pair =
        RevisionPair.draw(21, RevisionOptions.defaults().withMaxMegapixels(3).withChanges(3, 4));
    Comparison c = compared(pair);
    assertTrue(c.registration().fit().residual() < 1, c.registration().toString());
    ComparisonScores scores = new ComparisonScores();
    List<ComparisonScores.TrueChange> truth =
        pair.truth().changes().stream().map(t -> inUm(t, pair)).toList();
    scores.pair(c, truth, true);
    int n = truth.size();
    assertTrue(scores.text().contains("found " + n + ", of the right kind " + n), scores.text());
    assertTrue(scores.text().contains("false changes 0"), scores.text());
  }

  private static ComparisonScores.TrueChange inUm(RevisionChange t, RevisionPair pair) {
    double h = pair.truth().firstDieUm().heightUm();
    List<List<Double>> boxes =
        Stream.concat(t.beforeUm().stream(), t.afterUm().stream())
            .map(
                r ->
                    List.of(
                        r.xUm(), h - r.yUm() - r.heightUm(), r.xUm() + r.widthUm(), h - r.yUm()))
            .toList();
    return new ComparisonScores.TrueChange(
        ChangeKind.valueOf(t.kind().name()),
        boxes,
        Optional.of(new Point(t.movedXUm(), -t.movedYUm())));
  }

  @Test
  void anyNumberOfThreads_givesTheSameBytes_andReadSurveysTheSameKinds() throws IOException {
    RevisionPair pair = RevisionPair.draw(620004, SMALL);
    DieSegmenter segmenter = DieSegmenter.withDefaults();
    try (DiePhoto a = photo(pair.first(), "a");
        DiePhoto b = photo(pair.second(), "b")) {
      ScaleInput scaleA = known(pair.truth().firstStatedUmPerPx());
      ScaleInput scaleB = known(pair.truth().secondStatedUmPerPx());
      ComparisonSide first = new ComparisonSide(segmenter.survey(a, scaleA), a);
      ComparisonSide second = new ComparisonSide(segmenter.survey(b, scaleB), b);
      String one = json(new LayoutComparer("test", 1).compare(first, second));
      assertEquals(one, json(new LayoutComparer("test", 4).compare(first, second)));
      // A survey that was read states its frame in rounded pixels, so that only last digits differ.
      Comparison read =
          new LayoutComparer("test", 4)
              .compare(
                  new ComparisonSide(first.survey(), a), new ComparisonSide(second.survey(), b))
              .comparison();
      assertEquals(
          kinds(new LayoutComparer("test", 2).compare(first, second).comparison()), kinds(read));
    }
  }

  private static List<ChangeKind> kinds(Comparison c) {
    return c.changes().stream().map(Change::kind).sorted().toList();
  }

  private static ScaleInput known(double pitchUm) {
    return new ScaleInput.Known(Calibration.ofPixelPitch(pitchUm, 0));
  }

  private static String json(ComparisonResult r) {
    return ComparisonJson.write(r.comparison(), Optional.empty());
  }

  @Test
  void photographWithoutScale_isComparedInPixels_andSaidSo() throws IOException {
    RevisionPair pair = RevisionPair.draw(620004, SMALL);
    DieSegmenter segmenter = DieSegmenter.withDefaults();
    try (DiePhoto a = photo(pair.first(), "a");
        DiePhoto b = photo(pair.second(), "b")) {
      Comparison c =
          new LayoutComparer("test")
              .compare(
                  new ComparisonSide(
                      segmenter.survey(a, known(pair.truth().firstStatedUmPerPx())), a),
                  new ComparisonSide(segmenter.survey(b, ScaleInput.NONE), b))
              .comparison();
      assertEquals(LengthUnit.PX, c.unit());
      assertTrue(c.notices().stream().anyMatch(n -> n.id().equals("no-scale")));
      assertTrue(c.registration().fit().residual() < 1, c.registration().toString());
    }
  }

  /** What the part does not show is no change. */
  @Test
  void partOfTheSecondDie_isLaidOnTheFirst() throws IOException {
    RevisionPair pair = RevisionPair.draw(620004, SMALL.unchanged());
    DieSegmenter segmenter = DieSegmenter.withDefaults();
    Path whole = DieFiles.write(pair.second(), temp, "whole", DieFiles.Format.PNG);
    BufferedImage picture = ImageIO.read(whole.toFile());
    Path part = temp.resolve("part.png");
    int width = (int) (0.7 * picture.getWidth());
    ImageIO.write(picture.getSubimage(0, 0, width, picture.getHeight()), "png", part.toFile());
    try (DiePhoto a = photo(pair.first(), "a");
        DiePhoto b = DiePhoto.open(part)) {
      Comparison c =
          new LayoutComparer("test")
              .compare(
                  new ComparisonSide(
                      segmenter.survey(a, known(pair.truth().firstStatedUmPerPx())), a),
                  new ComparisonSide(
                      segmenter.survey(b, known(pair.truth().secondStatedUmPerPx())), b))
              .comparison();
      assertTrue(c.registration().fit().residual() < 1, c.registration().toString());
      assertTrue(c.difference().notCommon() > 0.15, c.difference().toString());
      assertTrue(c.difference().different() < 0.02, c.difference().toString());
    }
  }

  @Test
  void twoDifferentChips_areRefused() {
    DieInputException e =
        assertThrows(
            DieInputException.class, () -> compared(RevisionPair.strangers(620001, SMALL)));
    assertEquals(Reason.NO_COMMON_LAYOUT, e.reason());
    assertTrue(e.getMessage().contains("no common layout found"), e.getMessage());
  }
}
