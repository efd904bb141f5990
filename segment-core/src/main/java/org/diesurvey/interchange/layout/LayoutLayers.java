package org.diesurvey.interchange.layout;

import java.io.IOException;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.interchange.Refused;

/**
 * Which layers of a layout become which bits of a mask: a table in CSV, one row for each layer.
 *
 * <pre>
 * layer,datatype,bit
 * 65,20,diffusion
 * 66,20,polysilicon
 * </pre>
 *
 * <p>Several layers may have one bit, and one layer several bits. Lines that start with # are
 * remarks.
 */
public final class LayoutLayers {
  private static final long LARGEST_BYTES = 1 << 20;

  private static final String HEADER = "layer,datatype,bit";

  private final Map<Integer, Integer> bits;

  private LayoutLayers(Map<Integer, Integer> bits) {
    this.bits = Map.copyOf(bits);
  }

  /**
   * Reads a table.
   *
   * @throws DieInputException if the file cannot be read or is no such table, with one sentence
   */
  public static LayoutLayers read(Path file) {
    try {
      if (Files.size(file) > LARGEST_BYTES) {
        throw Refused.file(file.toString(), "a layer map has at most 1 MiB; name the right file");
      }
      return parse(Files.readAllLines(file, StandardCharsets.UTF_8), file.toString());
    } catch (CharacterCodingException e) {
      throw Refused.file(file.toString(), "the layer map is no text in UTF-8; save it again", e);
    } catch (IOException e) {
      throw new DieInputException(
          Reason.FILE_UNREADABLE,
          file + ": the layer map cannot be read; check the name and the permissions.",
          e);
    }
  }

  static LayoutLayers parse(List<String> lines, String place) {
    Map<Integer, Integer> bits = new HashMap<>();
    boolean header = false;
    for (int i = 0; i < lines.size(); i++) {
      String line = lines.get(i).replace("\uFEFF", "").strip();
      if (line.isEmpty() || line.startsWith("#")) {
        continue;
      }
      if (!header) {
        if (!line.replace(" ", "").toLowerCase(Locale.ROOT).equals(HEADER)) {
          throw Refused.file(place, "the first line must be '" + HEADER + "'");
        }
        header = true;
        continue;
      }
      String[] cells = line.split(",", -1);
      if (cells.length != 3) {
        throw Refused.file(place, "line " + (i + 1) + " has " + cells.length + " cells, not three");
      }
      String where = "line " + (i + 1);
      int key = key(number(cells[0], where, place), number(cells[1], where, place));
      LayoutBit bit =
          LayoutBit.of(cells[2].strip())
              .orElseThrow(
                  () ->
                      Refused.file(
                          place,
                          where
                              + ": '"
                              + Refused.quoted(cells[2].strip())
                              + "' is none of the bits "
                              + LayoutBit.words()));
      bits.merge(key, bit.bit(), (a, b) -> a | b);
    }
    if (bits.isEmpty()) {
      throw Refused.file(place, "the layer map names no layer");
    }
    return new LayoutLayers(bits);
  }

  private static int number(String cell, String where, String place) {
    String text = cell.strip();
    if (!text.matches("[0-9]{1,5}") || Integer.parseInt(text) > 0xffff) {
      throw Refused.file(
          place,
          where + ": '" + Refused.quoted(text) + "' is no layer or datatype from 0 to 65535");
    }
    return Integer.parseInt(text);
  }

  private static int key(int layer, int datatype) {
    return layer << 16 | datatype;
  }

  /** The bits of a layer, 0 where it is not in the map. */
  int bits(int layer, int datatype) {
    return bits.getOrDefault(key(layer & 0xffff, datatype & 0xffff), 0);
  }
}
