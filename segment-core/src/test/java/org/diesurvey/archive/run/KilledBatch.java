package org.diesurvey.archive.run;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.diesurvey.archive.BatchListener;
import org.diesurvey.archive.BatchPhoto;

/** A batch in a process of its own, to be killed: sample survey, photographs, archive. */
final class KilledBatch {
  private KilledBatch() {}

  public static void main(String[] args) throws Exception {
    List<BatchPhoto> photos = new ArrayList<>();
    try (Stream<Path> all = Files.list(Path.of(args[1]))) {
      all.sorted()
          .forEach(p -> photos.add(BatchPhoto.of(p, org.diesurvey.pipeline.ScaleInput.NONE)));
    }
    new BatchRun(
            Path.of(args[2]),
            new CopyingSurveyor(Path.of(args[0]), 15, "1"),
            2,
            1L << 30,
            SampleArchive.MOMENT)
        .run(photos, BatchListener.SILENT);
  }
}
