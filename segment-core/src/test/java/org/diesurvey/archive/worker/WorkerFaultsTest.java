package org.diesurvey.archive.worker;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.ConcurrentHashMap;
import javax.imageio.ImageIO;
import org.diesurvey.archive.BatchListener;
import org.diesurvey.archive.BatchOutcome;
import org.diesurvey.archive.BatchPhoto;
import org.diesurvey.archive.BatchProgress;
import org.diesurvey.archive.query.ArchiveTable;
import org.diesurvey.archive.run.ArchiveCheck;
import org.diesurvey.archive.run.BatchRun;
import org.diesurvey.archive.run.SampleArchive;
import org.diesurvey.pipeline.ScaleInput;
import org.diesurvey.synthetic.DieDrawing;
import org.diesurvey.synthetic.DieFiles;
import org.diesurvey.synthetic.DrawOptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Worker processes that crash, hang, are killed and run out of memory, among real surveys. */
class WorkerFaultsTest {
  private static final int SMALL_HEAP_MIB = 150;

  /** Parts of it and what the filters make of them take more than that. */
  private static final int HUGE_PX = 6000;

  @TempDir private Path folder;
  private final Map<String, String> causes = new ConcurrentHashMap<>();

  @Test
  void faultsOfProcesses_costTheirPhotographOnly() throws Exception {
    Path photos = Files.createDirectory(folder.resolve("photos"));
    List<BatchPhoto> given = new ArrayList<>();
    for (String name : List.of("crash", "hang", "fault")) {
      given.add(photo(Files.writeString(photos.resolve(name + ".png"), name)));
    }
    given.add(2, photo(huge(photos.resolve("memory.png"))));
    for (int i = 1; i <= 2; i++) {
      DrawOptions options = DrawOptions.defaults().withUmPerPx(1).withMaxMegapixels(0.2);
      String name = "die-" + i;
      Path drawn =
          DieFiles.write(DieDrawing.draw(30 + i, options), folder, name, DieFiles.Format.PNG);
      given.add(i, photo(Files.copy(drawn, photos.resolve(name + ".png"))));
    }
    Thread killer = new Thread(() -> kill(photos.resolve("hang.png.pid")));
    killer.start();
    Map<String, String> became = run(given, Duration.ofMinutes(5));
    killer.join();
    Map<String, String> expected = new TreeMap<>();
    expected.put("crash.png", "WORKER_LOST");
    expected.put("die-1.png", "SURVEYED");
    expected.put("die-2.png", "SURVEYED");
    expected.put("fault.png", "PROGRAM_FAULT");
    expected.put("hang.png", "WORKER_LOST");
    expected.put("memory.png", "OUT_OF_MEMORY");
    assertEquals(expected, became);
    String trace = causes.get("fault.png");
    assertTrue(
        trace.contains("the fault itself") && trace.contains("at org.diesurvey"),
        "the trace of the other process: " + trace);
    assertEquals(List.of(), ArchiveCheck.of(archive()).findings());
    ArchiveTable lost =
        ArchiveTable.read(archive(), "SELECT sentence FROM not_surveyed ORDER BY path", List.of());
    assertEquals(
        "../photos/crash.png: the process that surveyed it ended with exit code 134.",
        lost.text(0, "sentence"));
  }

  @Test
  void timeLimit_endsTheProcess_andTheNextRunTriesAgain() throws Exception {
    List<BatchPhoto> given =
        List.of(photo(Files.writeString(folder.resolve("hang.png"), "hangs for ever")));
    assertEquals(Map.of("hang.png", "TIME_LIMIT"), run(given, Duration.ofSeconds(1)));
    long pid = Long.parseLong(Files.readString(folder.resolve("hang.png.pid")));
    ProcessHandle.of(pid).ifPresent(p -> p.onExit().join());
    Files.delete(folder.resolve("hang.png.pid"));
    assertEquals(Map.of("hang.png", "TIME_LIMIT"), run(given, Duration.ofSeconds(1)));
    assertTrue(Files.exists(folder.resolve("hang.png.pid")), "was tried again");
  }

  private Path archive() {
    return folder.resolve("archive");
  }

  /** What became of each photograph, by its name. */
  private Map<String, String> run(List<BatchPhoto> photos, Duration limit) {
    Map<String, String> became = new TreeMap<>();
    BatchListener listener =
        new BatchListener() {
          @Override
          public void lost(BatchPhoto photo, RuntimeException why) {
            causes.put(name(photo), String.valueOf(why.getCause()));
          }

          @Override
          public void done(BatchOutcome outcome, BatchProgress progress) {
            became.put(name(outcome.photo()), outcome.reason().orElse(outcome.kind().name()));
          }
        };
    try (IsolatedSurveyor surveyor =
        new IsolatedSurveyor(command(), new TreeMap<>(Map.of("test", "1")), limit)) {
      new BatchRun(archive(), surveyor, 2, 1L << 34, SampleArchive.MOMENT).run(photos, listener);
    }
    return became;
  }

  private static String name(BatchPhoto photo) {
    return photo.file().getFileName().toString();
  }

  private static BatchPhoto photo(Path file) {
    return BatchPhoto.of(file, ScaleInput.NONE);
  }

  /** A photograph that passes every check, and needs more memory than the worker has. */
  private static Path huge(Path file) throws IOException {
    BufferedImage image = new BufferedImage(HUGE_PX, HUGE_PX, BufferedImage.TYPE_BYTE_GRAY);
    for (int y = 0; y < HUGE_PX; y++) {
      for (int x = 0; x < HUGE_PX; x++) {
        image.getRaster().setSample(x, y, 0, (x * 7919 ^ y * 104729) >> 3 & 0xff);
      }
    }
    ImageIO.write(image, "png", file.toFile());
    return file;
  }

  /** Kills the process that says it is at work, as the system does when memory is short. */
  private static void kill(Path mark) {
    try {
      while (!Files.exists(mark)) {
        Thread.sleep(50);
      }
      ProcessHandle.of(Long.parseLong(Files.readString(mark))).orElseThrow().destroyForcibly();
    } catch (IOException | InterruptedException e) {
      throw new IllegalStateException(e);
    }
  }

  private static List<String> command() {
    return List.of(
        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
        "-Xmx" + SMALL_HEAP_MIB + "m",
        "-XX:+UseSerialGC",
        "-Djava.awt.headless=true",
        "-cp",
        SampleArchive.classPath(),
        ServedFaults.class.getName());
  }
}
