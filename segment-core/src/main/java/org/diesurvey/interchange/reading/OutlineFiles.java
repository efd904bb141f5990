package org.diesurvey.interchange.reading;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.Supported;
import org.diesurvey.interchange.OutlineChecks;
import org.diesurvey.interchange.OutlineSet;
import org.diesurvey.interchange.Refused;
import org.diesurvey.interchange.SurveyOutlines;
import org.diesurvey.interchange.annotation.AnnotationReader;
import org.diesurvey.interchange.gds.GdsReader;
import org.diesurvey.interchange.geojson.GeoJsonReader;
import org.diesurvey.interchange.svg.SvgOutlines;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.json.SurveyJson;

/**
 * Reads outlines from a file of any kind that this program writes: GeoJSON, SVG, GDSII stream, W3C
 * Web Annotations, or a survey. The kind is taken from the content, not from the name.
 */
@Supported
public final class OutlineFiles {
  /** Largest file that is read, bytes. */
  static final long MOST_BYTES = 32L << 20;

  private static final ObjectMapper JSON =
      new ObjectMapper(
              JsonFactory.builder()
                  .streamReadConstraints(
                      StreamReadConstraints.builder()
                          .maxNestingDepth(64)
                          .maxNumberLength(64)
                          .maxStringLength(20_000_000)
                          .build())
                  .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
                  .build())
          .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS);

  private OutlineFiles() {}

  /**
   * The outlines in a file, checked as {@link OutlineChecks#checked} says.
   *
   * @throws DieInputException FILE_MISSING, FILE_UNREADABLE, FILE_EMPTY, FORMAT_UNKNOWN, or
   *     DOCUMENT_INVALID with the outline at fault and what to do
   */
  public static OutlineSet read(Path file) {
    return parse(bytes(file), file.toString());
  }

  /**
   * The bytes of a file of tolerable size.
   *
   * @throws DieInputException FILE_MISSING, FILE_UNREADABLE, FILE_EMPTY or DOCUMENT_INVALID
   */
  public static byte[] bytes(Path file) {
    if (!Files.isRegularFile(file)) {
      throw new DieInputException(
          Reason.FILE_MISSING, file + ": there is no file with outlines here; check the name.");
    }
    try {
      long size = Files.size(file);
      if (size == 0) {
        throw new DieInputException(
            Reason.FILE_EMPTY, file + ": the file is empty; save it again.");
      }
      if (size > MOST_BYTES) {
        throw Refused.file(
            file.toString(),
            "the file has "
                + size
                + " bytes, at most "
                + MOST_BYTES
                + " are read: link pictures"
                + " instead of embedding them, and keep only the outlines");
      }
      return Files.readAllBytes(file);
    } catch (IOException e) {
      throw new DieInputException(
          Reason.FILE_UNREADABLE, file + ": the file cannot be read; check its permissions.", e);
    }
  }

  /**
   * The outlines in bytes already read.
   *
   * @param place what to call the file in messages
   * @throws DieInputException as {@link #read}
   */
  public static OutlineSet parse(byte[] bytes, String place) {
    return OutlineChecks.checked(unchecked(bytes, place), place);
  }

  private static OutlineSet unchecked(byte[] bytes, String place) {
    // A GDSII stream begins with its header, a record of 6 bytes.
    if (bytes.length > 3 && bytes[0] == 0 && bytes[1] == 6 && bytes[2] == 0 && bytes[3] == 2) {
      return GdsReader.read(bytes, place);
    }
    int first = firstByte(bytes);
    if (first == '{' || first == '[') {
      return json(bytes, place);
    }
    if (first == '<') {
      return SvgOutlines.read(bytes, place);
    }
    throw new DieInputException(
        Reason.FORMAT_UNKNOWN,
        place
            + ": this is no file with outlines; GeoJSON, SVG, GDSII, Web Annotations and"
            + " survey.json are read.");
  }

  /** The first byte that is neither a byte order mark nor white space; -1 where there is none. */
  private static int firstByte(byte[] bytes) {
    int i = 0;
    if (bytes.length > 2 && bytes[0] == (byte) 0xEF && bytes[1] == (byte) 0xBB) {
      i = 3;
    }
    while (i < bytes.length && (bytes[i] == ' ' || bytes[i] >= 9 && bytes[i] <= 13)) {
      i++;
    }
    return i < bytes.length ? bytes[i] : -1;
  }

  private static OutlineSet json(byte[] bytes, String place) {
    JsonNode root;
    try {
      root = JSON.readTree(bytes);
    } catch (JsonProcessingException e) {
      throw Refused.file(
          place,
          "this is no valid JSON"
              + (e.getLocation() == null ? "" : " (line " + e.getLocation().getLineNr() + ")")
              + "; save the outlines again",
          e);
    } catch (IOException e) {
      throw Refused.file(place, "the JSON cannot be read; save the outlines again", e);
    }
    if (root.path("format").asText().equals(Survey.FORMAT)) {
      return SurveyOutlines.of(SurveyJson.parse(bytes, place).survey());
    }
    return AnnotationReader.recognises(root)
        ? AnnotationReader.read(root, place)
        : GeoJsonReader.read(root, place);
  }
}
