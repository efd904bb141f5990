package org.diesurvey.archive.store;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.OptionalDouble;
import org.diesurvey.archive.BatchOutcome;
import org.diesurvey.archive.BatchPhoto;
import org.diesurvey.archive.PhotoLabels;
import org.diesurvey.pipeline.ScaleInput;

/**
 * What an archive knows of a photograph besides its survey. It lies in the survey's folder, so that
 * the database can be made anew from the folders alone.
 *
 * @param surveyKey key of the survey
 * @param path where the photograph lay, seen from the archive
 * @param sha256 of its bytes
 * @param labels what its owner said of it when it was surveyed
 */
public record ArchivedPhotograph(String surveyKey, String path, String sha256, PhotoLabels labels) {
  /** Name of the file. */
  static final String FILE = "photograph.json";

  private static final ObjectMapper JSON = new ObjectMapper();

  private static final String FORMAT = "diesurvey-archived-photograph";

  byte[] json() {
    ObjectNode root = JSON.createObjectNode();
    root.put("format", FORMAT).put("format_version", 1);
    root.put("survey_key", surveyKey).put("path", path).put("sha256", sha256);
    labels.dieName().ifPresent(t -> root.put("die_name", t));
    labels.revision().ifPresent(t -> root.put("revision", t));
    labels.layer().ifPresent(t -> root.put("layer", t));
    labels.notes().ifPresent(t -> root.put("notes", t));
    return (root.toPrettyString().replace("\r\n", "\n") + "\n").getBytes(StandardCharsets.UTF_8);
  }

  /**
   * Reads the file.
   *
   * @throws IOException if there is none, or what lies there is none
   */
  static ArchivedPhotograph read(Path file) throws IOException {
    JsonNode root = JSON.readTree(Files.readAllBytes(file));
    if (root == null || !FORMAT.equals(root.path("format").asText())) {
      throw new IOException(file + ": this is not what an archive notes of a photograph");
    }
    return new ArchivedPhotograph(
        root.path("survey_key").asText(),
        root.path("path").asText(),
        root.path("sha256").asText(),
        new PhotoLabels(
            text(root, "die_name"),
            text(root, "revision"),
            text(root, "layer"),
            text(root, "notes")));
  }

  private static Optional<String> text(JsonNode root, String name) {
    return Optional.ofNullable(root.get(name)).filter(JsonNode::isTextual).map(JsonNode::asText);
  }

  /** Whether a folder of this name is that of the survey, not a copy under another name. */
  boolean isOf(String folder) {
    return surveyKey.length() > BatchPhoto.KEY_DIGITS
        && folder.endsWith("-" + surveyKey.substring(0, BatchPhoto.KEY_DIGITS));
  }

  /** The row of a survey that was found complete, without one. */
  SourceRow row(String fileName, Path folder) {
    Path file = Path.of(fileName.isEmpty() ? "photo" : fileName);
    BatchPhoto photo = new BatchPhoto(file, ScaleInput.NONE, OptionalDouble.empty(), labels);
    BatchOutcome outcome =
        new BatchOutcome(
            photo,
            BatchOutcome.Kind.UNCHANGED,
            Optional.empty(),
            Optional.empty(),
            Optional.of(folder));
    return new SourceRow(path, surveyKey, sha256, outcome);
  }
}
