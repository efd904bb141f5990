package org.diesurvey.interchange.layout;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;

/** The record beside a mask: what the block is, how large, and where it came from. */
final class LayoutRecord {
  private LayoutRecord() {}

  static byte[] json(LayerMask mask, String name) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (JsonGenerator g = new JsonFactory().createGenerator(out)) {
      g.setPrettyPrinter(new DefaultPrettyPrinter());
      write(g, mask, name);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return out.toByteArray();
  }

  private static void write(JsonGenerator g, LayerMask m, String name) throws IOException {
    g.writeStartObject();
    g.writeStringField("name", name);
    g.writeStringField("class", m.settings().blockClass());
    g.writeStringField("kind", m.settings().kind());
    g.writeStringField("technology", m.settings().technology());
    if (m.settings().nodeNm().isPresent()) {
      g.writeNumberField("node_nm", m.settings().nodeNm().getAsDouble());
    }
    g.writeNumberField("um_per_px", m.settings().umPerPx());
    g.writeNumberField("width_um", rounded(m.widthUm()));
    g.writeNumberField("height_um", rounded(m.heightUm()));
    g.writeBooleanField("boundary_is_block_edge", m.wholeBlock().isEmpty());
    if (m.wholeBlock().isPresent()) {
      numbers(
          g, "crop_of_um", List.of(m.wholeBlock().get().width(), m.wholeBlock().get().height()));
    }
    if (!m.bits().isEmpty()) {
      g.writeArrayFieldStart("inner_arrays_um");
      for (LayoutCells.Box b : m.arrayBoxes()) {
        g.writeStartArray();
        for (double v : new double[] {b.x0(), b.y0(), b.x1() - b.x0(), b.y1() - b.y0()}) {
          g.writeNumber(rounded(v));
        }
        g.writeEndArray();
      }
      g.writeEndArray();
      g.writeStringField("inner_arrays_origin", "picture top left, y down");
      List<Double> pitch = new ArrayList<>();
      LayoutArrays.pitch(m.bits(), b -> (b.x0() + b.x1()) / 2).ifPresent(pitch::add);
      LayoutArrays.pitch(m.bits(), b -> (b.y0() + b.y1()) / 2).ifPresent(pitch::add);
      if (pitch.size() == 2) {
        numbers(g, "bit_cell_um", pitch);
      }
      g.writeNumberField("bit_cells_in_picture", m.bitCells());
    }
    g.writeObjectFieldStart("source");
    g.writeStringField("file_name", m.file().name());
    g.writeStringField("sha256", m.file().sha256());
    g.writeStringField("cell", m.cell());
    g.writeEndObject();
    g.writeObjectFieldStart("coverage");
    for (LayoutBit b : LayoutBit.values()) {
      g.writeNumberField(b.member(), rounded(m.areaUm2(b) / (m.widthUm() * m.heightUm())));
    }
    g.writeEndObject();
    g.writeEndObject();
  }

  private static void numbers(JsonGenerator g, String name, List<Double> values)
      throws IOException {
    g.writeArrayFieldStart(name);
    for (double v : values) {
      g.writeNumber(rounded(v));
    }
    g.writeEndArray();
  }

  /** To a tenth of a nm: what is finer comes from adding binary fractions. */
  private static double rounded(double v) {
    return Math.rint(v * 1e4) / 1e4;
  }
}
