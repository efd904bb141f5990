package org.diesurvey.archive.query;

import java.util.Arrays;
import java.util.Optional;

/** What can be asked for in an archive, by the words of an expression. */
enum FindField {
  MEMORY_SHARE("memory share", "memory_share", Kind.SHARE),
  MACRO_SHARE("macro share", "macro_share", Kind.SHARE),
  LOGIC_SHARE("logic share", "logic_share", Kind.SHARE),
  PAD_RING_SHARE("pad ring share", "pad_ring_share", Kind.SHARE),
  UNCLEAR_SHARE("unclear share", "unclear_share", Kind.SHARE),
  DAMAGED_SHARE("damaged share", "damaged_share", Kind.SHARE),
  LOWEST_CONFIDENCE("lowest confidence", "lowest_confidence", Kind.SHARE),
  DIE_AREA("die area", "die_area_mm2", Kind.NUMBER),
  DIE_WIDTH("die width", "die_width_mm", Kind.NUMBER),
  DIE_HEIGHT("die height", "die_height_mm", Kind.NUMBER),
  MEMORY_AREA("memory area", "memory_area_mm2", Kind.NUMBER),
  NODE("node", "node_nm", Kind.NUMBER),
  PITCH("pitch", "um_per_px", Kind.NUMBER),
  REGIONS("regions", "regions", Kind.NUMBER),
  WARNINGS("warnings", "warnings", Kind.NUMBER),
  BITS("bits", "bits", Kind.NUMBER),
  GATES("gates", "nand2_equivalents", Kind.NUMBER),
  DIE_NAME("die name", "die_name", Kind.TEXT),
  REVISION("revision", "revision", Kind.TEXT),
  LAYER("layer", "layer", Kind.TEXT),
  NOTES("notes", "notes", Kind.TEXT),
  FILE("file", "file_name", Kind.TEXT),
  PATH("path", "path", Kind.TEXT),
  SHA256("sha256", "sha256", Kind.TEXT),
  MODEL("model", "model", Kind.TEXT),
  VERSION("version", "software_version", Kind.TEXT);

  /** What values it takes. */
  enum Kind {
    SHARE,
    NUMBER,
    TEXT
  }

  private final String words;
  private final String column;
  private final Kind kind;

  FindField(String words, String column, Kind kind) {
    this.words = words;
    this.column = column;
    this.kind = kind;
  }

  String words() {
    return words;
  }

  /** Column of the view surveyed_photo. */
  String column() {
    return column;
  }

  Kind kind() {
    return kind;
  }

  static Optional<FindField> of(String words) {
    return Arrays.stream(values()).filter(f -> f.words.equals(words)).findFirst();
  }
}
