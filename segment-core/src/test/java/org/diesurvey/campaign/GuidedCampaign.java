package org.diesurvey.campaign;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/**
 * Inputs for each reader of ours, changed so that they reach ever more of its code ({@code mvn
 * -Pguided -pl segment-core -am}): ten minutes for each, two at a time. A process of its own with a
 * small heap reads them; an exception but a refusal, and an input that takes more than 10 s, ends
 * it and is kept in {@code target/guided}. {@code -Ddiesurvey.guided.seconds=N} changes how long.
 */
class GuidedCampaign {
  private static final int SECONDS = Integer.getInteger("diesurvey.guided.seconds", 600);
  private static final int AT_A_TIME = 2;

  /** Inputs may grow to this many bytes, or to twice the whole file. */
  private static final int SHORTEST_MOST = 1 << 16;

  private static final List<CampaignKind> READERS =
      List.of(
          CampaignKind.PNG_CHECKSUMS_MENDED,
          CampaignKind.JPEG,
          CampaignKind.TIFF_LZW,
          CampaignKind.TIFF_FLOAT,
          CampaignKind.GEOJSON,
          CampaignKind.SVG,
          CampaignKind.GDSII,
          CampaignKind.ANNOTATIONS,
          CampaignKind.SURVEY,
          CampaignKind.CALIBRATION,
          CampaignKind.MANIFEST,
          CampaignKind.DENSITIES,
          CampaignKind.MODEL_TEXT);

  private static final Pattern TRIED = Pattern.compile("(?m)^#(\\d+)\\s+DONE\\s+cov: (\\d+)");

  @Test
  void whateverIsThoughtOf_isReadOrRefused() throws Exception {
    Path kept = Files.createDirectories(Path.of("target", "guided").toAbsolutePath());
    ExecutorService workers = Executors.newFixedThreadPool(AT_A_TIME);
    List<Future<String>> results = new ArrayList<>();
    READERS.forEach(kind -> results.add(workers.submit(() -> run(kind, kept))));
    workers.shutdown();
    List<String> faults = new ArrayList<>();
    for (Future<String> result : results) {
      if (!result.get().isEmpty()) {
        faults.add(result.get());
      }
    }
    assertEquals("", String.join("\n", faults));
  }

  private static String classPath() {
    return System.getProperty("surefire.test.class.path", System.getProperty("java.class.path"));
  }

  /** What went wrong; empty if nothing did. */
  private static String run(CampaignKind kind, Path kept) throws IOException, InterruptedException {
    Path own = Files.createDirectories(kept.resolve(kind.name()));
    Path corpus = Files.createDirectories(own.resolve("corpus"));
    byte[] whole = kind.whole(own);
    Files.write(corpus.resolve("whole"), whole);
    Path log = own.resolve("log.txt");
    Process process =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Xmx1g",
                "-Djava.awt.headless=true",
                "-Ddiesurvey.guided.kind=" + kind,
                "-Ddiesurvey.guided.folder=" + own,
                "-cp",
                classPath(),
                "com.code_intelligence.jazzer.Jazzer",
                "--target_class=" + GuidedTarget.class.getName(),
                "--instrumentation_includes=org.diesurvey.**",
                "--reproducer_path=" + own,
                "-artifact_prefix=" + own + "/",
                "-max_total_time=" + SECONDS,
                "-timeout=10",
                "-rss_limit_mb=3000",
                "-max_len=" + Math.max(SHORTEST_MOST, 2 * whole.length),
                "-print_final_stats=1",
                corpus.toString())
            .directory(own.toFile())
            .redirectErrorStream(true)
            .redirectOutput(log.toFile())
            .start();
    int code = process.waitFor();
    String told = Files.readString(log, StandardCharsets.UTF_8);
    Matcher done = TRIED.matcher(told);
    if (code == 0) {
      assertTrue(done.find(), kind + " ended without a count: " + log);
      System.out.println(kind + " " + done.group(1) + " inputs, coverage " + done.group(2));
      return "";
    }
    return kind + " ended with " + code + ", see " + log;
  }
}
