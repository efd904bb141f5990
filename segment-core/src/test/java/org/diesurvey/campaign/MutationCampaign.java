package org.diesurvey.campaign;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * 20,000 changed files of every kind that is read ({@code mvn -Pcampaign}): each is read or refused
 * with a reason. A worker process does the reading with a small heap; one that crashes, or takes
 * more than 10 s of processor time for a file, is a failure, as is any exception but a refusal.
 * Files that fail are kept in {@code target/campaign}. {@code -Ddiesurvey.campaign.files=N} and
 * {@code -Ddiesurvey.campaign.seed=S} change how many and which.
 */
class MutationCampaign {
  private static final int FILES = Integer.getInteger("diesurvey.campaign.files", 20_000);
  private static final long SEED = Long.getLong("diesurvey.campaign.seed", 1);
  private static final int OF = 20_000;
  private static final Duration MOST_PROCESSOR_TIME = Duration.ofSeconds(10);
  private static final Duration MOST_WAITING = Duration.ofSeconds(300);

  /** One photograph in so many is surveyed as well. */
  private static final int SURVEYED = 100;

  @TempDir Path folder;

  private Process worker;
  private PrintWriter orders;
  private BlockingQueue<String> answers;

  @Test
  void everyChangedFile_isReadOrRefused() throws IOException, InterruptedException {
    Path kept = Files.createDirectories(Path.of("target", "campaign"));
    List<String> failures = new ArrayList<>();
    for (CampaignKind kind : CampaignKind.values()) {
      byte[] whole = kind.whole(folder);
      assertEquals("read", CampaignWorker.outcome(kind, file(kind.asFile(whole)), false));
      Map<String, Integer> outcomes = new TreeMap<>();
      int count = Math.max(1, (int) ((long) kind.share() * FILES / OF));
      for (int i = 0; i < count; i++) {
        long seed = SEED * 1_000_003 + i;
        byte[] changed = new Mutations(seed).changed(whole, kind.isText());
        Path file = file(kind.asFile(changed));
        String outcome = ask(kind, file, kind.isPhoto() && i % SURVEYED == SURVEYED - 1);
        String what = outcome.startsWith("FAULT") ? "FAULT" : outcome;
        outcomes.merge(what, 1, Integer::sum);
        if (what.equals("FAULT")) {
          Path copy = kept.resolve(kind + "-" + seed);
          Files.copy(file, copy, StandardCopyOption.REPLACE_EXISTING);
          failures.add(copy + ": " + outcome);
        }
      }
      System.out.println(kind + " " + outcomes);
    }
    stop();
    assertEquals("", String.join("\n", failures));
    assertEquals(List.of(), leftBehind());
  }

  private Path file(byte[] bytes) throws IOException {
    return Files.write(folder.resolve("changed"), bytes);
  }

  /** Nothing but the files of this campaign lies in its folder: no half-written result. */
  private List<String> leftBehind() throws IOException {
    try (Stream<Path> all = Files.list(folder)) {
      return all.map(p -> p.getFileName().toString())
          .filter(n -> !n.equals("changed") && !n.startsWith("whole-"))
          .sorted(Comparator.naturalOrder())
          .toList();
    }
  }

  private String ask(CampaignKind kind, Path file, boolean survey)
      throws IOException, InterruptedException {
    if (worker == null || !worker.isAlive()) {
      start();
    }
    Duration before = processorTime();
    long began = System.nanoTime();
    orders.println(kind + "\t" + file + "\t" + (survey ? "1" : "0"));
    orders.flush();
    while (true) {
      String answer = answers.poll(200, TimeUnit.MILLISECONDS);
      if (answer != null) {
        return answer;
      }
      if (!worker.isAlive()) {
        return "FAULT the worker process ended with " + worker.exitValue();
      }
      Duration waited = Duration.ofNanos(System.nanoTime() - began);
      Duration used = processorTime().minus(before);
      if (used.compareTo(MOST_PROCESSOR_TIME) > 0 || waited.compareTo(MOST_WAITING) > 0) {
        stop();
        return String.format(
            Locale.ROOT,
            "FAULT no end after %d s of processor time, %d s of waiting",
            used.toSeconds(),
            waited.toSeconds());
      }
    }
  }

  private Duration processorTime() {
    return worker.info().totalCpuDuration().orElse(Duration.ZERO);
  }

  private void start() throws IOException {
    worker =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Xmx512m",
                "-XX:+UseSerialGC",
                "-XX:TieredStopAtLevel=1",
                "-Djava.awt.headless=true",
                "-cp",
                System.getProperty("java.class.path"),
                CampaignWorker.class.getName())
            .redirectError(Path.of("target", "campaign", "worker.log").toFile())
            .start();
    orders = new PrintWriter(worker.outputWriter(StandardCharsets.UTF_8));
    answers = new LinkedBlockingQueue<>();
    BufferedReader in =
        new BufferedReader(new InputStreamReader(worker.getInputStream(), StandardCharsets.UTF_8));
    BlockingQueue<String> into = answers;
    Thread reader = new Thread(() -> in.lines().forEach(into::add), "answers");
    reader.setDaemon(true);
    reader.start();
  }

  private void stop() throws InterruptedException {
    if (worker != null) {
      worker.destroyForcibly().waitFor();
      worker = null;
    }
  }
}
