package org.diesurvey.archive;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.file.Path;
import java.time.Instant;
import java.util.OptionalDouble;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.calibration.ScaleOrigin;
import org.diesurvey.pipeline.ScaleInput;
import org.diesurvey.quantity.Measured;

/**
 * One photograph for a worker process, as a line of JSON.
 *
 * @param photo what to survey
 * @param folder for its survey
 * @param created moment to note
 * @param threads how many may be used
 */
record WorkerMessage(BatchPhoto photo, Path folder, Instant created, int threads) {
  static final ObjectMapper JSON = new ObjectMapper();

  String line() {
    ObjectNode n = JSON.createObjectNode();
    n.put("photo", photo.file().toString());
    n.put("folder", folder.toString());
    n.put("created", created.getEpochSecond());
    n.put("threads", threads);
    photo.nodeNm().ifPresent(nm -> n.put("node_nm", nm));
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
    JsonNode n = JSON.readTree(line);
    BatchPhoto photo =
        new BatchPhoto(
            Path.of(n.get("photo").asText()),
            scale(n),
            n.has("node_nm")
                ? OptionalDouble.of(n.get("node_nm").asDouble())
                : OptionalDouble.empty(),
            PhotoLabels.NONE);
    return new WorkerMessage(
        photo,
        Path.of(n.get("folder").asText()),
        Instant.ofEpochSecond(n.get("created").asLong()),
        n.get("threads").asInt());
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
