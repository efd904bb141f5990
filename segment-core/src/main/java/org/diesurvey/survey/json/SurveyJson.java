package org.diesurvey.survey.json;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Optional;
import org.diesurvey.BoundedFile;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.Supported;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.SurveyDocument;

/**
 * The written form of a survey: JSON (RFC 8259, UTF-8), described by the JSON Schema {@value
 * #SCHEMA_RESOURCE} beside this class. Members have a fixed order and numbers a fixed number of
 * digits (px and um to 0.01, mm and mm2 to 6 significant digits, standard uncertainties to 3,
 * shares to 0.000001, probabilities to 0.0001), so that equal surveys have equal bytes.
 */
@Supported
public final class SurveyJson {
  /** Largest document that is read, bytes; that of a large die has some millions. */
  private static final long MOST_BYTES = 128L << 20;

  /** Class path name of the published schema, relative to this class. */
  public static final String SCHEMA_RESOURCE = "survey.schema.json";

  private SurveyJson() {}

  /**
   * The document as UTF-8 bytes, ending with a line feed.
   *
   * @param survey what to write
   * @param created the moment to note, cut to whole seconds; empty notes none
   */
  public static byte[] write(Survey survey, Optional<Instant> created) {
    return new SurveyJsonWriter(survey).document(created).getBytes(StandardCharsets.UTF_8);
  }

  /**
   * The survey in a file.
   *
   * @throws DieInputException FILE_MISSING or FILE_UNREADABLE; DOCUMENT_INVALID, naming the member,
   *     if the file is no survey, of a version that this program does not know, or altered since
   *     the list of checksums beside it was written
   */
  public static Survey read(Path file) {
    return readDocument(file).survey();
  }

  /**
   * The survey in a file with the moment of its making.
   *
   * @throws DieInputException as {@link #read}
   */
  public static SurveyDocument readDocument(Path file) {
    if (!Files.isRegularFile(file)) {
      throw new DieInputException(
          Reason.FILE_MISSING,
          file + ": there is no survey document here; name the survey.json of a surveyed photo.");
    }
    try {
      byte[] bytes = BoundedFile.bytes(file, MOST_BYTES, Reason.DOCUMENT_INVALID);
      SurveySeal.requireUnaltered(file, bytes);
      return parse(bytes, file.toString());
    } catch (IOException e) {
      throw new DieInputException(
          Reason.FILE_UNREADABLE, file + ": the survey document cannot be read.", e);
    }
  }

  /**
   * The survey in bytes already read.
   *
   * @param json the document, UTF-8
   * @param place what to call the document in messages, usually its file name
   * @throws DieInputException DOCUMENT_INVALID as {@link #read}
   */
  public static SurveyDocument parse(byte[] json, String place) {
    return new SurveyJsonReader(place).document(json);
  }

  /** Text of the JSON Schema (draft 2020-12) that every written survey satisfies. */
  public static String schema() {
    try (var in = SurveyJson.class.getResourceAsStream(SCHEMA_RESOURCE)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
