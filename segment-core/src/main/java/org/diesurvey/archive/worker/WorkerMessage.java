package org.diesurvey.archive.worker;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.file.Path;
import java.time.Instant;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.diesurvey.DieInputException;
import org.diesurvey.archive.BatchPhoto;
import org.diesurvey.archive.PhotoFailure;
import org.diesurvey.archive.PhotoLabels;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.calibration.ScaleOrigin;
import org.diesurvey.pipeline.ScaleInput;
import org.diesurvey.quantity.Measured;

/**
 * One photograph for a worker process, as a line of JSON. On another computer the photograph and
 * the folder may lie at other places: these stand before the JSON then, each with a tab behind.
 *
 * @param photo what to survey
 * @param place of the photograph, as people know it
 * @param folder for its survey
 * @param created moment to note
 * @param threads how many may be used
 */
record WorkerMessage(BatchPhoto photo, String place, Path folder, Instant created, int threads) {
  WorkerMessage(BatchPhoto photo, Path folder, Instant created, int threads) {
    this(photo, photo.place(), folder, created, threads);
  }

  static final ObjectMapper JSON = new ObjectMapper();

  String line() {
    ObjectNode n = JSON.createObjectNode();
    n.put("photo", place);
    n.put("folder", folder.toString());
    n.put("created", created.getEpochSecond());
    n.put("threads", threads);
    photo.nodeNm().ifPresent(nm -> n.put("node_nm", nm));
    photo.plane().ifPresent(p -> n.put("plane", p));
    if (photo.scale() instanceof ScaleInput.Known k) {
      n.put("um_per_px", k.calibration().umPerPx().value());
      n.put("u_um_per_px", k.calibration().umPerPx().standardUncertainty());
      n.put("origin", k.calibration().origin().name());
      n.put("note", k.calibration().note());
    } else if (photo.scale() instanceof ScaleInput.OfDieSize d) {
      n.put("die_width_mm", d.widthMm());
      n.put("die_height_mm", d.heightMm());
      n.put("u_mm", d.standardUncertaintyMm());
    }
    return n.toString();
  }

  /**
   * Reads a line.
   *
   * @throws JsonProcessingException if it is no JSON
   */
  static WorkerMessage parse(String line) throws JsonProcessingException {
    String[] parts = line.split("\t", 3);
    JsonNode n = JSON.readTree(parts[parts.length - 1]);
    String place = n.get("photo").asText();
    BatchPhoto photo =
        new BatchPhoto(
                Path.of(parts.length == 3 ? parts[0] : place),
                scale(n),
                n.has("node_nm")
                    ? OptionalDouble.of(n.get("node_nm").asDouble())
                    : OptionalDouble.empty(),
                PhotoLabels.NONE)
            .withPlane(
                n.has("plane") ? OptionalInt.of(n.get("plane").asInt()) : OptionalInt.empty());
    return new WorkerMessage(
        photo,
        place,
        Path.of(parts.length == 3 ? parts[1] : n.get("folder").asText()),
        Instant.ofEpochSecond(n.get("created").asLong()),
        n.get("threads").asInt());
  }

  /** Whether a worker said that its memory ran out; it ends then. */
  static boolean ranOutOfMemory(JsonNode answer) {
    return answer.path("failed").asText().equals(PhotoFailure.Kind.OUT_OF_MEMORY.name());
  }

  /**
   * Throws what a worker said.
   *
   * @throws DieInputException if it rejected the photograph
   * @throws PhotoFailure if it was not finished
   */
  static void requireDone(JsonNode answer) {
    if (answer.has("rejected")) {
      throw new DieInputException(
          DieInputException.Reason.valueOf(answer.get("rejected").asText()),
          answer.get("sentence").asText());
    }
    if (answer.has("failed")) {
      throw new PhotoFailure(
          PhotoFailure.Kind.valueOf(answer.get("failed").asText()),
          answer.get("sentence").asText(),
          answer.has("trace") ? new IllegalStateException(answer.get("trace").asText()) : null);
    }
  }

  /** A sentence with the photograph's place as people know it. */
  String inTheirWords(String sentence) {
    return sentence.replace(photo.file().toString(), place);
  }

  private static ScaleInput scale(JsonNode n) {
    if (n.has("um_per_px")) {
      return new ScaleInput.Known(
          new Calibration(
              new Measured(n.get("um_per_px").asDouble(), n.get("u_um_per_px").asDouble()),
              ScaleOrigin.valueOf(n.get("origin").asText()),
              n.get("note").asText()));
    }
    return n.has("die_width_mm")
        ? new ScaleInput.OfDieSize(
            n.get("die_width_mm").asDouble(),
            n.get("die_height_mm").asDouble(),
            n.get("u_mm").asDouble())
        : ScaleInput.NONE;
  }
}
