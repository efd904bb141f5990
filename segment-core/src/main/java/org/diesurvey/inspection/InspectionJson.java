package org.diesurvey.inspection;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.StreamWriteFeature;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.Optional;

/**
 * The written form of an inspection: JSON (RFC 8259, UTF-8), described by the JSON Schema {@value
 * #SCHEMA_RESOURCE} beside this class. Members have a fixed order and numbers a fixed number of
 * digits, so that equal inspections have equal bytes.
 */
public final class InspectionJson {
  /** Class path name of the published schema, relative to this class. */
  public static final String SCHEMA_RESOURCE = "inspection.schema.json";

  private static final JsonMapper MAPPER =
      JsonMapper.builder().enable(StreamWriteFeature.WRITE_BIGDECIMAL_AS_PLAIN).build();

  private InspectionJson() {}

  /**
   * The document as UTF-8 bytes, ending with a line feed.
   *
   * @param created the moment to note, cut to whole seconds; empty notes none
   */
  public static byte[] write(Inspection inspection, Optional<Instant> created) {
    DefaultPrettyPrinter lines = new DefaultPrettyPrinter();
    lines.indentObjectsWith(new DefaultIndenter("  ", "\n"));
    try {
      String text = MAPPER.writer(lines).writeValueAsString(tree(inspection, created));
      return (text + "\n").getBytes(StandardCharsets.UTF_8);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("a tree of plain values could not be written", e);
    }
  }

  /** The document as a tree, for writing it in another shape. */
  public static ObjectNode tree(Inspection inspection, Optional<Instant> created) {
    return new InspectionTree(inspection).tree(created);
  }
}
