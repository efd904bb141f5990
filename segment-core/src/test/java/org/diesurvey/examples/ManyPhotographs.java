package org.diesurvey.examples;

import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.diesurvey.archive.BatchListener;
import org.diesurvey.archive.BatchPhoto;
import org.diesurvey.archive.BatchProgress;
import org.diesurvey.archive.PhotoSurveyor;
import org.diesurvey.archive.ScaleChoice;
import org.diesurvey.archive.run.BatchRun;
import org.diesurvey.archive.worker.LocalSurveyor;
import org.diesurvey.pipeline.DieSegmenter;
import org.diesurvey.pipeline.ScaleInput;

/** Many photographs into an archive; a bad one is an outcome, not an end. */
final class ManyPhotographs {
  private ManyPhotographs() {}

  static BatchProgress run(List<Path> files, ScaleInput scale, Path archive) {
    // begin
    List<BatchPhoto> photos = files.stream().map(f -> BatchPhoto.of(f, scale)).toList();
    PhotoSurveyor surveyor =
        new LocalSurveyor(
            DieSegmenter.withDefaults(), ScaleChoice.STATED_ONLY, Duration.ofHours(1), false);
    BatchRun run =
        new BatchRun(archive, surveyor, 2, Runtime.getRuntime().maxMemory(), Instant.now());
    return run.run(photos, BatchListener.SILENT);
    // end
  }
}
