package org.diesurvey.calibration;

import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.diesurvey.BoundedFile;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.Supported;
import org.diesurvey.files.OwnFiles;
import org.diesurvey.files.ReadFiles;
import org.diesurvey.quantity.Measured;

/**
 * A calibration file: the pixel pitch of one objective as JSON, described by the JSON Schema {@code
 * calibration.schema.json} beside this class.
 *
 * @param umPerPx micrometres per pixel with standard uncertainty, within the limits of {@link
 *     Calibration}
 * @param objective the objective as the lab calls it, if stated
 * @param method how the pitch was measured, if stated
 * @param measuredOn day of the measurement, YYYY-MM-DD, if stated
 * @param note anything else, if stated
 * @param evidence what the pitch rests on: interval, budget, photographs; if measured by this
 *     program
 */
@Supported
public record CalibrationFile(
    Measured umPerPx,
    Optional<String> objective,
    Optional<String> method,
    Optional<String> measuredOn,
    Optional<String> note,
    Optional<CalibrationEvidence> evidence) {
  /** Format name in the written form. */
  public static final String FORMAT = "diesurvey-calibration";

  /** Version of the written form. */
  public static final int FORMAT_VERSION = 1;

  static final String PITCH = "um_per_px";
  static final String UNCERTAINTY = "standard_uncertainty_um_per_px";
  private static final String EVIDENCE = "evidence";
  private static final List<String> TEXTS = List.of("objective", "method", "measured_on", "note");

  /** Largest file that is read, bytes; one with evidence has some 100,000. */
  private static final long MOST_BYTES = 16L << 20;

  private static final JsonMapper MAPPER =
      JsonMapper.builder()
          .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
          .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
          .build();

  /** Rejects pitches outside the limits of {@link Calibration}. */
  public CalibrationFile {
    var unused = new Calibration(umPerPx, ScaleOrigin.CALIBRATION_FILE, "");
  }

  /**
   * Reads a calibration file.
   *
   * @throws DieInputException FILE_MISSING, FILE_UNREADABLE; DOCUMENT_INVALID for another format or
   *     version or a bad member; SCALE_INVALID for a pitch that no die photograph has
   */
  public static CalibrationFile read(Path file) {
    if (!Files.isRegularFile(file)) {
      throw new DieInputException(
          Reason.FILE_MISSING,
          file + ": there is no calibration file here; check the name or state um per px.");
    }
    byte[] bytes;
    try {
      bytes = BoundedFile.bytes(file, MOST_BYTES, Reason.DOCUMENT_INVALID);
    } catch (IOException e) {
      throw new DieInputException(
          Reason.FILE_UNREADABLE, file + ": the calibration file cannot be read.", e);
    }
    try {
      return parse(MAPPER.readTree(bytes), file.toString());
    } catch (IOException e) {
      throw invalid(file.toString(), "this is not JSON text", e);
    }
  }

  private static CalibrationFile parse(JsonNode root, String place) {
    if (!root.isObject() || !FORMAT.equals(root.path("format").asText())) {
      throw invalid(place, "the member format is not \"" + FORMAT + "\"", null);
    }
    if (!root.path("format_version").isInt()
        || root.path("format_version").intValue() != FORMAT_VERSION) {
      throw invalid(
          place,
          "the member format_version is "
              + root.path("format_version")
              + ", but this program reads version "
              + FORMAT_VERSION,
          null);
    }
    Set<String> known =
        Set.of(
            "format",
            "format_version",
            PITCH,
            UNCERTAINTY,
            "objective",
            "method",
            "measured_on",
            "note",
            EVIDENCE);
    for (Iterator<String> it = root.fieldNames(); it.hasNext(); ) {
      String name = it.next();
      if (!known.contains(name)) {
        throw invalid(place, "the member " + name + " is unknown", null);
      }
    }
    double pitch = number(root, PITCH, place);
    double uncertainty = number(root, UNCERTAINTY, place);
    Measured measured;
    try {
      measured = new Measured(pitch, uncertainty);
    } catch (IllegalArgumentException e) {
      throw invalid(place, "the member " + UNCERTAINTY + " is " + uncertainty, e);
    }
    try {
      return new CalibrationFile(
          measured,
          text(root, TEXTS.get(0), place),
          text(root, TEXTS.get(1), place),
          day(root, place),
          text(root, TEXTS.get(3), place),
          root.has(EVIDENCE)
              ? Optional.of(CalibrationEvidenceJson.read(root.get(EVIDENCE), measured))
              : Optional.empty());
    } catch (IllegalArgumentException e) {
      throw invalid(place, e.getMessage(), e);
    } catch (DieInputException e) {
      throw new DieInputException(e.reason(), place + ": " + e.getMessage(), e);
    }
  }

  private static double number(JsonNode root, String name, String place) {
    if (!root.path(name).isNumber() || !Double.isFinite(root.path(name).doubleValue())) {
      throw invalid(place, "the member " + name + " must be a finite number", null);
    }
    return root.path(name).doubleValue();
  }

  private static Optional<String> text(JsonNode root, String name, String place) {
    JsonNode node = root.path(name);
    if (node.isMissingNode()) {
      return Optional.empty();
    }
    if (!node.isTextual()) {
      throw invalid(place, "the member " + name + " must be a text", null);
    }
    return Optional.of(node.textValue());
  }

  private static Optional<String> day(JsonNode root, String place) {
    Optional<String> day = text(root, TEXTS.get(2), place);
    try {
      return day.map(d -> LocalDate.parse(d).toString());
    } catch (DateTimeException e) {
      throw invalid(place, "the member measured_on must be a day such as 2026-01-31", e);
    }
  }

  private static DieInputException invalid(String place, String why, Throwable cause) {
    return new DieInputException(
        Reason.DOCUMENT_INVALID,
        place + ": " + why + "; correct the calibration file or state the scale as um per px.",
        cause);
  }

  /**
   * The pitch for a photograph, with a note that names the objective, the method and the file.
   *
   * @param fileName name of the calibration file for the record
   */
  public Calibration calibration(String fileName) {
    StringBuilder line = new StringBuilder("calibration file ").append(fileName);
    objective.ifPresent(o -> line.append(", objective ").append(o));
    method.ifPresent(m -> line.append(", ").append(m));
    evidence
        .filter(e -> !e.photos().isEmpty())
        .ifPresent(
            e -> {
              line.append(", ").append(e.lines()).append(" lines");
              if (e.photos().size() > 1) {
                line.append(" in ").append(e.photos().size()).append(" photographs");
              }
            });
    measuredOn.ifPresent(d -> line.append(", measured on ").append(d));
    return new Calibration(umPerPx, ScaleOrigin.CALIBRATION_FILE, line.toString());
  }

  /** The written form, UTF-8 JSON. */
  public String text() {
    ObjectNode root = MAPPER.createObjectNode();
    root.put("format", FORMAT);
    root.put("format_version", FORMAT_VERSION);
    root.put(PITCH, umPerPx.value());
    root.put(UNCERTAINTY, umPerPx.standardUncertainty());
    objective.ifPresent(t -> root.put(TEXTS.get(0), t));
    method.ifPresent(t -> root.put(TEXTS.get(1), t));
    measuredOn.ifPresent(t -> root.put(TEXTS.get(2), t));
    note.ifPresent(t -> root.put(TEXTS.get(3), t));
    evidence.ifPresent(e -> CalibrationEvidenceJson.write(e, root.putObject(EVIDENCE)));
    return root.toPrettyString().replace("\r\n", "\n") + "\n";
  }

  /**
   * Writes this calibration, and beside it FILE.sha256 with its checksum. An existing file is
   * replaced only if it was written so and not changed since.
   *
   * @throws DieInputException OUTPUT_NOT_WRITABLE
   */
  public void write(Path file) {
    String name = file.toAbsolutePath().normalize().getFileName().toString();
    OwnFiles.of(file, ReadFiles.NONE).write(Map.of(name, text().getBytes(StandardCharsets.UTF_8)));
  }
}
