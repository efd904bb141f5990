package org.diesurvey.archive.run;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.concurrent.atomic.AtomicInteger;
import org.diesurvey.DieInputException;
import org.diesurvey.archive.BatchPhoto;
import org.diesurvey.archive.PhotoFailure;
import org.diesurvey.archive.PhotoSurveyor;
import org.diesurvey.report.SurveyFolder;
import org.diesurvey.survey.json.SurveyJson;

/**
 * Stands in for the survey itself in tests of what is around it: every photograph gets the same
 * survey, slowly if wanted. A file that begins with "bad" is rejected, one with "fail" fails.
 */
public final class CopyingSurveyor implements PhotoSurveyor {
  private final byte[] survey;
  private final int pauseMs;
  private final String version;
  final AtomicInteger calls = new AtomicInteger();

  public CopyingSurveyor(Path surveyDocument, int pauseMs, String version) throws IOException {
    this.survey = SurveyJson.write(SurveyJson.read(surveyDocument), Optional.of(Instant.EPOCH));
    this.pauseMs = pauseMs;
    this.version = version;
  }

  @Override
  public void survey(BatchPhoto photo, Path folder, Instant created, int threads) {
    calls.incrementAndGet();
    try {
      String text = Files.readString(photo.file(), StandardCharsets.UTF_8);
      if (text.startsWith("bad")) {
        throw new DieInputException(
            DieInputException.Reason.FORMAT_UNKNOWN, photo.file() + ": bad");
      }
      if (text.startsWith("fail")) {
        throw new PhotoFailure(PhotoFailure.Kind.TIME_LIMIT, photo.file() + ": slow", null);
      }
      Files.createDirectories(folder);
      Files.write(folder.resolve(SurveyFolder.SURVEY), survey);
      Thread.sleep(pauseMs);
      Files.writeString(folder.resolve(SurveyFolder.CSV), text);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (InterruptedException e) {
      throw new IllegalStateException(e);
    }
  }

  @Override
  public SortedMap<String, String> identity() {
    return new TreeMap<>(java.util.Map.of("version", version));
  }

  @Override
  public void close() {}
}
