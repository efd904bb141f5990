package org.diesurvey.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.awt.image.Raster;
import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import javax.imageio.ImageIO;
import org.diesurvey.classification.DieClass;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.SurveyRegion;
import org.diesurvey.survey.json.SurveyJson;
import org.diesurvey.synthetic.BlockTruth;
import org.diesurvey.synthetic.DemoDie;
import org.diesurvey.synthetic.DieDrawing;
import org.diesurvey.synthetic.DieFiles;
import org.diesurvey.synthetic.DrawnDie;
import org.diesurvey.synthetic.PointUm;
import org.diesurvey.synthetic.RectUm;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The loop of a user, from end to end: survey, correction in the report in Debian's Chromium, saved
 * file, measures, teaching, survey with the taught model. The die is a coarse photograph of the
 * demo die; what is corrected is the hard macro that the survey got most wrong, told by the truth.
 * Skipped where Node, the browser or the tools (npm ci in src/test/browser of segment-core) are
 * absent.
 */
@Tag("slow")
class CorrectionLoopTest {
  private static final Path TOOLS = Path.of("../segment-core/src/test/browser").toAbsolutePath();
  private static final double PITCH_UM = 0.8;

  @TempDir Path temp;

  private static Optional<Path> onPath(String... names) {
    for (String name : names) {
      for (String at : System.getenv("PATH").split(File.pathSeparator)) {
        Path file = Path.of(at, name);
        if (Files.isExecutable(file)) {
          return Optional.of(file);
        }
      }
    }
    return Optional.empty();
  }

  private static void done(Object... args) {
    Call call = Call.of(args);
    assertEquals(0, call.code(), call.err());
  }

  /** Share of a block of the drawn die that a survey gives the class hard macro. */
  private double found(DrawnDie die, RectUm block, String surveys) throws IOException {
    Raster map = ImageIO.read(temp.resolve(surveys + "/demo/label-map.png").toFile()).getRaster();
    int right = 0;
    int all = 0;
    for (double y = block.yUm() + 2; y < block.bottomUm() - 2; y += PITCH_UM) {
      for (double x = block.xUm() + 2; x < block.rightUm() - 2; x += PITCH_UM) {
        PointUm p = new PointUm(x, y);
        int column = (int) die.truth().umToPx().columnPx(p);
        int row = (int) die.truth().umToPx().rowPx(p);
        right += map.getSample(column, row, 0) == DieClass.HARD_MACRO.code() ? 1 : 0;
        all++;
      }
    }
    return right / (double) all;
  }

  private double wrong(DrawnDie die, BlockTruth block) {
    try {
      return (1 - found(die, block.outlineUm(), "first")) * block.outlineUm().areaUm2();
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  private Survey survey(String surveys) {
    return SurveyJson.read(temp.resolve(surveys + "/demo/survey.json"));
  }

  /** Draws the block in the report and saves. Returns the file as the browser saved it. */
  private JsonNode correct(Path node, Path browser, RectUm block, double dieHeightUm)
      throws IOException, InterruptedException {
    double[] box = {
      block.xUm(), dieHeightUm - block.bottomUm(), block.rightUm(), dieHeightUm - block.yUm()
    };
    ObjectMapper mapper = new ObjectMapper();
    mapper.writeValue(
        temp.resolve("plan.json").toFile(),
        Map.of(
            "report",
            "first/demo/report.html",
            "box_um",
            box,
            "as",
            "Hard macro",
            "note",
            "no bit cells here",
            "author",
            "A. Nalyst",
            "wheel",
            2));
    Path complaints = temp.resolve("complaints");
    Process process =
        new ProcessBuilder(node.toString(), "loop.mjs", temp.toString(), browser.toString())
            .directory(TOOLS.toFile())
            .redirectOutput(temp.resolve("result.json").toFile())
            .redirectError(complaints.toFile())
            .start();
    boolean ended = process.waitFor(300, TimeUnit.SECONDS);
    process.destroy();
    assertTrue(ended, "the browser hangs");
    assertEquals(0, process.exitValue(), Files.readString(complaints));
    return mapper.readTree(temp.resolve("result.json").toFile());
  }

  @Test
  void correctedRegion_isMeasured_taught_andFoundAnew() throws Exception {
    Optional<Path> node = onPath("node", "nodejs");
    Optional<Path> browser = onPath("chromium", "chromium-browser", "google-chrome");
    assumeTrue(node.isPresent(), "skipped: no node on the path");
    assumeTrue(browser.isPresent(), "skipped: no Chromium on the path");
    assumeTrue(
        Files.isDirectory(TOOLS.resolve("node_modules/playwright-core")),
        "skipped: run npm ci in segment-core/src/test/browser first");
    DrawnDie die =
        DieDrawing.draw(DemoDie.SEED, DemoDie.options().withMaxMegapixels(2).withUmPerPx(PITCH_UM));
    Path photo = DieFiles.write(die, temp, "demo", DieFiles.Format.JPG);
    String pitch = Double.toString(PITCH_UM);
    done("segment", photo, "--um-per-px", pitch, "--out", temp.resolve("first"), "--quiet");
    Survey first = survey("first");

    BlockTruth macro =
        die.truth().blocks().stream()
            .filter(b -> b.description().startsWith("hard macro"))
            .max(Comparator.comparingDouble(b -> wrong(die, b)))
            .orElseThrow();
    RectUm block = macro.outlineUm();
    double before = found(die, block, "first");
    JsonNode made =
        correct(
            node.get(), browser.get(), block, 1000 * first.die().heightMm().orElseThrow().value());
    Path saved = temp.resolve(made.get("file").asText());

    // Measured again: the outline is there as drawn, and the map says so.
    done(
        "measure",
        photo,
        "--um-per-px",
        pitch,
        "--outlines",
        saved,
        "--out",
        temp.resolve("measured"),
        "--quiet");
    SurveyRegion drawn =
        survey("measured").regions().stream()
            .filter(r -> r.id().equals(made.get("id").asText()))
            .findFirst()
            .orElseThrow();
    assertEquals(DieClass.HARD_MACRO, drawn.dieClass());
    assertEquals(
        block.areaUm2() / 1e6, drawn.areaMm2().orElseThrow().value(), 0.05 * block.areaUm2() / 1e6);
    assertTrue(found(die, block, "measured") > 0.95, "the map has the corrected outline");

    // Taught: the photograph and the scale are those that the file names.
    Path model = temp.resolve("lab.json.gz");
    done("teach", "--outlines", saved, "--model", model, "--megapixels", "0.4", "--quiet");
    done(
        "segment",
        photo,
        "--um-per-px",
        pitch,
        "--model",
        model,
        "--out",
        temp.resolve("second"),
        "--quiet");
    Survey second = survey("second");
    assertFalse(
        first.method().software().toString().contains("taught on"), "the shipped model at first");
    assertTrue(
        second.method().software().toString().contains("taught on 1 photograph"), "the taught one");
    assertNotEquals(outlines(first), outlines(second));
    double after = found(die, block, "second");
    String shares = macro.description() + ": " + before + " found at first, " + after + " taught";
    assertTrue(before < 0.9 ? after > before + 0.05 : after >= before, shares);
  }

  private static List<String> outlines(Survey survey) {
    return survey.regions().stream().map(r -> r.dieClass() + " " + r.inPhoto().outline()).toList();
  }
}
