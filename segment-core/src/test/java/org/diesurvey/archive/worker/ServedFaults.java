package org.diesurvey.archive.worker;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.SortedMap;
import org.diesurvey.archive.BatchPhoto;
import org.diesurvey.archive.PhotoFailure;
import org.diesurvey.archive.PhotoSurveyor;
import org.diesurvey.archive.ScaleChoice;
import org.diesurvey.pipeline.DieSegmenter;

/**
 * A worker process for tests: surveys really, but for photographs whose names ask for a fault of
 * the process.
 */
final class ServedFaults implements PhotoSurveyor {
  private final LocalSurveyor real =
      new LocalSurveyor(
          DieSegmenter.withDefaults(), ScaleChoice.STATED_ONLY, Duration.ofDays(1), false);

  private ServedFaults() {}

  public static void main(String[] args) throws Exception {
    SurveyWorker.serve(
        new ServedFaults(), System.in, System.out, () -> Runtime.getRuntime().halt(0));
  }

  @Override
  public void survey(BatchPhoto photo, Path folder, Instant created, int threads) {
    String name = photo.file().getFileName().toString();
    if (name.startsWith("crash")) {
      // As a fault in native code: no hook, no goodbye.
      Runtime.getRuntime().halt(134);
    }
    try {
      if (name.startsWith("hang")) {
        Path mark = photo.file().resolveSibling(name + ".pid");
        Files.writeString(mark.resolveSibling("new"), Long.toString(ProcessHandle.current().pid()));
        Files.move(mark.resolveSibling("new"), mark);
        Thread.sleep(Long.MAX_VALUE);
      }
    } catch (IOException | InterruptedException e) {
      throw new IllegalStateException(e);
    }
    if (name.startsWith("fault")) {
      throw new PhotoFailure(
          PhotoFailure.Kind.PROGRAM_FAULT,
          photo.file() + ": this program failed.",
          new IllegalStateException("the fault itself"));
    }
    real.survey(photo, folder, created, threads);
  }

  @Override
  public SortedMap<String, String> identity() {
    return real.identity();
  }

  @Override
  public void close() {}
}
