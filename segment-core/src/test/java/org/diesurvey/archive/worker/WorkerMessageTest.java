package org.diesurvey.archive.worker;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Path;
import java.time.Instant;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.diesurvey.archive.BatchPhoto;
import org.diesurvey.archive.PhotoLabels;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.calibration.ScaleOrigin;
import org.diesurvey.pipeline.ScaleInput;
import org.diesurvey.quantity.Measured;
import org.junit.jupiter.api.Test;

class WorkerMessageTest {
  @Test
  void whatIsStatedOfAPhotograph_reachesTheWorker() throws Exception {
    ScaleInput scale =
        new ScaleInput.Known(
            new Calibration(new Measured(0.5, 0.002), ScaleOrigin.STATED, "micrometer 20x"));
    BatchPhoto photo =
        new BatchPhoto(
            Path.of("stack.tif"),
            scale,
            OptionalDouble.of(130),
            PhotoLabels.NONE,
            OptionalInt.of(3),
            Optional.empty());
    WorkerMessage sent = new WorkerMessage(photo, Path.of("out"), Instant.ofEpochSecond(7), 2);
    WorkerMessage got = WorkerMessage.parse(sent.line());
    assertEquals(sent.photo(), got.photo());
    assertEquals(sent.created(), got.created());
    assertEquals(2, got.threads());
    BatchPhoto first = photo.withPlane(OptionalInt.empty());
    assertEquals(
        first,
        WorkerMessage.parse(new WorkerMessage(first, Path.of("out"), Instant.EPOCH, 1).line())
            .photo());
  }
}
