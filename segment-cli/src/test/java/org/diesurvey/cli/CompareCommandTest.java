package org.diesurvey.cli;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import javax.imageio.ImageIO;
import org.diesurvey.synthetic.DieFiles;
import org.diesurvey.synthetic.RevisionOptions;
import org.diesurvey.synthetic.RevisionPair;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A drawn pair is drawn and surveyed once; most tests compare the surveys. */
class CompareCommandTest {
  private static final Map<String, String> FIXED = Map.of("SOURCE_DATE_EPOCH", "1700000000");

  @TempDir static Path shared;
  private static RevisionPair pair;
  private static Path a;
  private static Path b;
  private static Path surveyA;
  private static Path surveyB;

  @TempDir Path temp;

  @BeforeAll
  static void draw() throws IOException {
    pair =
        RevisionPair.draw(
            620004,
            RevisionOptions.defaults().withMaxMegapixels(1.2).withChanges(2, 3).withGrowth(0));
    a = DieFiles.write(pair.first(), shared, "a", DieFiles.Format.PNG);
    b = DieFiles.write(pair.second(), shared, "b", DieFiles.Format.PNG);
    surveyA = survey(a, pair.truth().firstStatedUmPerPx());
    surveyB = survey(b, pair.truth().secondStatedUmPerPx());
  }

  private static Path survey(Path photo, double umPerPx) {
    Call call =
        Call.of(
            "segment",
            photo,
            "--um-per-px",
            umPerPx + "+-" + 0.03 * umPerPx,
            "--out",
            shared,
            "--quiet");
    assertEquals(0, call.code(), call.err());
    String name = photo.getFileName().toString();
    return shared.resolve(name.substring(0, name.indexOf('.')));
  }

  private static Set<String> names(Path folder) throws IOException {
    try (var all = Files.list(folder)) {
      return all.map(p -> p.getFileName().toString()).collect(Collectors.toSet());
    }
  }

  private Call compare(Object... words) {
    Object[] all = new Object[words.length + 1];
    all[0] = "compare";
    System.arraycopy(words, 0, all, 1, words.length);
    return Call.with(FIXED, false, all);
  }

  @Test
  void twoSurveys_giveOneFolder_withTheSameBytesOnAnyNumberOfThreads() throws Exception {
    Path out = temp.resolve("out");
    Call call = compare(surveyA, surveyB, "--out", out, "--pdf", "--threads", 1);
    assertEquals(0, call.code(), call.err());
    assertEquals(
        Set.of(
            "checksums.sha256",
            "comparison.json",
            "changes.geojson",
            "changes.csv",
            "comparison.html",
            "comparison.pdf",
            "earlier-survey.json",
            "later-survey.json"),
        names(out));
    assertTrue(call.out().contains("a -> b"), call.out());
    assertTrue(call.out().contains("comparison.html"), call.out());
    Path again = temp.resolve("again");
    assertEquals(0, compare(surveyA, surveyB, "--out", again, "--threads", 2).code());
    Set<String> twice = new java.util.TreeSet<>(names(again));
    assertTrue(twice.remove("checksums.sha256"), "a list of checksums");
    for (String name : twice) {
      assertArrayEquals(
          Files.readAllBytes(out.resolve(name)), Files.readAllBytes(again.resolve(name)), name);
    }
    // The first one's list has the PDF too.
    assertTrue(
        Files.readAllLines(out.resolve("checksums.sha256"))
            .containsAll(Files.readAllLines(again.resolve("checksums.sha256"))));
    JsonNode json = new ObjectMapper().readTree(out.resolve("comparison.json").toFile());
    assertEquals("diesurvey-comparison", json.get("format").asText());
    int changes = json.get("changes").size();
    assertEquals(changes + 1, Files.readString(out.resolve("changes.csv")).split("\r\n").length);
  }

  /** An empty field whose light falls off to the right. */
  private static Path emptyField(Path file, double least) throws IOException {
    BufferedImage photo = ImageIO.read(a.toFile());
    int w = photo.getWidth();
    BufferedImage empty = new BufferedImage(w, photo.getHeight(), BufferedImage.TYPE_BYTE_GRAY);
    for (int y = 0; y < empty.getHeight(); y++) {
      for (int x = 0; x < w; x++) {
        double level = 200 * (1 - (1 - least) * x / w);
        empty.getRaster().setSample(x, y, 0, (int) level + (x + y) % 2);
      }
    }
    ImageIO.write(empty, "png", file.toFile());
    return file;
  }

  @Test
  void emptyFieldOfASurvey_isUsedAgain_orAskedFor() throws Exception {
    Path photo = Files.copy(a, temp.resolve("lit.png"));
    Path field = emptyField(temp.resolve("field.png"), 0.9);
    double pitch = pair.truth().firstStatedUmPerPx();
    Call survey =
        Call.of("segment", photo, "--um-per-px", pitch, "--flat-field", field, "--out", temp);
    assertEquals(0, survey.code(), survey.err());
    Path lit = temp.resolve("lit");
    Path out = temp.resolve("out");
    assertEquals(0, compare(lit, surveyA, "--out", out).code());
    emptyField(field, 0.8);
    Call other = compare(lit, surveyA, "--out", out);
    assertEquals(ExitCode.SOME_REJECTED, other.code());
    assertTrue(other.err().contains("was surveyed with an empty field, SHA-256"), other.err());
    Files.delete(field);
    Call none = compare(lit, surveyA, "--out", out);
    assertEquals(ExitCode.SOME_REJECTED, none.code());
    assertTrue(none.err().contains("measured on, 'field.png', is not beside"), none.err());
  }

  @Test
  void photographs_areSurveyedFirst_withAScaleForEach() throws Exception {
    Path out = temp.resolve("out");
    Call call =
        compare(
            a,
            b,
            "--um-per-px",
            pair.truth().firstStatedUmPerPx() + "+-0.02",
            "--um-per-px",
            pair.truth().secondStatedUmPerPx() + "+-0.03",
            "--out",
            out);
    assertEquals(0, call.code(), call.err());
    assertTrue(call.err().contains("1 of 3  a.png: surveyed"), call.err());
    assertTrue(call.err().contains("3 of 3  a.png and b.png: compared"), call.err());
    assertTrue(Files.isRegularFile(out.resolve("comparison.html")));
  }

  @Test
  void threeRevisions_giveAFolderForEachStep_andAnOverview() throws Exception {
    Path out = temp.resolve("out");
    Call call = compare(surveyA, surveyB, surveyA, "--out", out);
    assertEquals(0, call.code(), call.err());
    assertEquals(
        Set.of("checksums.sha256", "1-2", "2-3", "revisions.html", "revisions.csv"), names(out));
    assertTrue(Files.readString(out.resolve("revisions.html")).contains("2-3/comparison.html"));
    // Compared again into the same folder, what does not belong to it is kept.
    Files.writeString(out.resolve("remark.txt"), "kept");
    assertEquals(0, compare(surveyA, surveyB, "--out", out).code());
    assertTrue(Files.isRegularFile(out.resolve("comparison.json")));
    assertEquals("kept", Files.readString(out.resolve("remark.txt")));
    assertFalse(Files.exists(out.resolve("1-2")), "the steps of before are gone");
  }

  @Test
  void revisionThatCannotBeUsed_isNamed_andTheOthersAreCompared() throws Exception {
    Path out = temp.resolve("out");
    Call call = compare(surveyA, surveyB, temp.resolve("missing.png"), "--out", out);
    assertEquals(1, call.code(), call.err());
    assertTrue(call.err().contains("missing.png"), call.err());
    assertEquals(Set.of("checksums.sha256", "1-2", "revisions.html", "revisions.csv"), names(out));
    assertTrue(Files.readString(out.resolve("revisions.html")).contains("not compared"));
  }

  @Test
  void differentChips_areRefused_andNothingIsWritten() throws Exception {
    RevisionPair strangers =
        RevisionPair.strangers(620005, RevisionOptions.defaults().withMaxMegapixels(1.2));
    Path stranger = DieFiles.write(strangers.second(), temp, "stranger", DieFiles.Format.PNG);
    Path out = temp.resolve("out");
    Call call = compare(surveyA, stranger, "--um-per-px", 1, "--out", out, "--quiet");
    assertEquals(1, call.code(), call.out());
    assertTrue(call.err().contains("ommon layout"), call.err());
    assertFalse(Files.exists(out), "nothing is written");
  }

  @Test
  void sameSurveyTwice_isSaid() {
    Call call = compare(surveyA, surveyA, "--out", temp.resolve("out"));
    assertEquals(0, call.code(), call.err());
    assertTrue(call.out().contains("same photograph"), call.out());
    assertTrue(call.out().contains("no change"), call.out());
  }

  @Test
  void photographWithoutScale_isComparedInPixels_andSaid() throws Exception {
    Path out = temp.resolve("out");
    Call call = compare(surveyA, b, "--no-scale", "--out", out);
    assertEquals(0, call.code(), call.err());
    assertTrue(call.out().contains("scale"), call.out());
    JsonNode json = new ObjectMapper().readTree(out.resolve("changes.geojson").toFile());
    assertEquals("px", json.get("coordinate_frame").get("unit").asText());
  }

  @Test
  void surveyWhosePhotographIsMissingOrAltered_isRefused() throws Exception {
    Path moved = Files.createDirectories(temp.resolve("far/from/any/photograph"));
    Files.copy(surveyB.resolve("survey.json"), moved.resolve("survey.json"));
    Path out = temp.resolve("out");
    Call missing = compare(surveyA, moved, "--out", out);
    assertEquals(1, missing.code());
    assertTrue(missing.err().contains("'b.png', is not beside the survey"), missing.err());
    Path photos = Files.createDirectories(temp.resolve("photos"));
    byte[] other = Files.readAllBytes(b);
    Files.write(photos.resolve("b.png"), java.util.Arrays.copyOf(other, other.length + 1));
    Call altered = compare(surveyA, moved, "--photos", photos, "--out", out);
    assertEquals(1, altered.code());
    assertTrue(altered.err().contains("SHA-256"), altered.err());
    assertFalse(Files.exists(out), "nothing is written");
    Files.copy(b, photos.resolve("b.png"), java.nio.file.StandardCopyOption.REPLACE_EXISTING);
    assertEquals(0, compare(surveyA, moved, "--photos", photos, "--out", out).code());
  }

  @Test
  void wrongCalls_areSaid_beforeAnythingIsDone() throws Exception {
    assertEquals(2, compare(surveyA, "--out", temp.resolve("o")).code(), "one revision");
    Call scales =
        compare(
            a,
            b,
            surveyA,
            "--um-per-px",
            1,
            "--um-per-px",
            1,
            "--um-per-px",
            1,
            "--out",
            temp.resolve("o"));
    assertEquals(2, scales.code());
    assertTrue(scales.err().contains("3 times for 2 photographs"), scales.err());
    Call both = compare(a, b, "--um-per-px", 1, "--no-scale", "--out", temp.resolve("o"));
    assertEquals(2, both.code());
    Path taken = Files.createDirectories(temp.resolve("taken"));
    Files.writeString(taken.resolve("notes.txt"), "mine");
    Call refused = compare(surveyA, surveyB, "--out", taken);
    assertEquals(2, refused.code());
    assertTrue(
        refused.err().contains("something that is no comparison of this program"), refused.err());
    assertEquals(Set.of("notes.txt"), names(taken));
  }
}
