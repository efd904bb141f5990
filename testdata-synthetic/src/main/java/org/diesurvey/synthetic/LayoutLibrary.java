package org.diesurvey.synthetic;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.lang.ref.SoftReference;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Predicate;
import java.util.stream.Stream;

/**
 * Blocks of real layouts that drawn floorplans may be filled with: a folder of layer masks, each
 * with a record of the same name beside it. Masks are read when first needed and given up when
 * memory runs short. Safe for many threads.
 */
public final class LayoutLibrary {
  /** Blocks that show less than this are as good as bare ground (own choice). */
  private static final double LEAST_SHOWN = 0.04;

  private final List<LayoutBlock> blocks;
  private final Map<Path, SoftReference<LayoutMask>> masks = new ConcurrentHashMap<>();

  private LayoutLibrary(List<LayoutBlock> blocks) {
    this.blocks = List.copyOf(blocks);
  }

  /**
   * Reads the records in a folder and the folders in it, in the order of their names.
   *
   * @throws IOException if one cannot be read or is no record of a block
   */
  public static LayoutLibrary open(Path folder) throws IOException {
    List<Path> records;
    try (Stream<Path> files = Files.walk(folder, 2)) {
      records = files.filter(LayoutLibrary::isRecord).sorted().toList();
    }
    ObjectMapper json = new ObjectMapper();
    List<LayoutBlock> blocks = new ArrayList<>();
    for (Path record : records) {
      blocks.add(block(record, json.readTree(record.toFile())));
    }
    return new LayoutLibrary(blocks.stream().filter(b -> b.shown() >= LEAST_SHOWN).toList());
  }

  private static boolean isRecord(Path file) {
    return file.toString().endsWith(".json") && Files.exists(maskOf(file));
  }

  private static Path maskOf(Path record) {
    String name = record.getFileName().toString();
    return record.resolveSibling(name.substring(0, name.length() - ".json".length()) + ".png");
  }

  private static LayoutBlock block(Path record, JsonNode n) throws IOException {
    for (String member : List.of("class", "technology", "um_per_px", "width_um", "height_um")) {
      if (!n.hasNonNull(member)) {
        throw new IOException(record + ": the record of a block needs a member " + member);
      }
    }
    List<RectUm> arrays = new ArrayList<>();
    for (JsonNode a : n.path("inner_arrays_um")) {
      arrays.add(
          new RectUm(
              a.get(0).asDouble(), a.get(1).asDouble(), a.get(2).asDouble(), a.get(3).asDouble()));
    }
    JsonNode cell = n.path("bit_cell_um");
    double diffusion = n.path("coverage").path("diff").asDouble(1);
    double poly = n.path("coverage").path("poly").asDouble(0);
    return new LayoutBlock(
        maskOf(record),
        kind(n.get("class").asText(), n.path("kind").asText()),
        n.get("technology").asText(),
        n.get("um_per_px").asDouble(),
        n.get("width_um").asDouble(),
        n.get("height_um").asDouble(),
        arrays,
        cell.path(0).asDouble(0),
        cell.path(1).asDouble(0),
        Math.min(1, diffusion + poly));
  }

  private static LayoutBlock.Kind kind(String text, String words) throws IOException {
    return switch (text) {
      case "memory", "rom" -> LayoutBlock.Kind.MEMORY;
      case "macro" -> LayoutBlock.Kind.MACRO;
      case "logic" -> LayoutBlock.Kind.LOGIC;
      case "io" -> words.contains("row") ? LayoutBlock.Kind.IO_ROW : LayoutBlock.Kind.IO_CELL;
      case "fill" -> LayoutBlock.Kind.FILL;
      default -> throw new IOException("no block is of the class '" + text + "'");
    };
  }

  /** The technologies in it. */
  public SortedSet<String> technologies() {
    SortedSet<String> names = new TreeSet<>();
    blocks.forEach(b -> names.add(b.technology()));
    return names;
  }

  /** Hexadecimal fingerprint of all records: the same for the same blocks. */
  public String fingerprint() {
    StringBuilder all = new StringBuilder();
    for (LayoutBlock b : blocks) {
      all.append(b.mask().getFileName()).append(b.withoutPath());
    }
    try {
      byte[] sum =
          MessageDigest.getInstance("SHA-256")
              .digest(all.toString().getBytes(StandardCharsets.UTF_8));
      return HexFormat.of().formatHex(sum);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException(e);
    }
  }

  /** The blocks whose technology passes; shares no masks with this library. */
  public LayoutLibrary only(Predicate<String> technology) {
    return new LayoutLibrary(blocks.stream().filter(b -> technology.test(b.technology())).toList());
  }

  /** All blocks, in the order of their records. */
  public List<LayoutBlock> blocks() {
    return blocks;
  }

  List<LayoutBlock> of(LayoutBlock.Kind kind, String technology) {
    return blocks.stream()
        .filter(b -> b.kind() == kind && b.technology().equals(technology))
        .toList();
  }

  LayoutMask mask(LayoutBlock block) {
    SoftReference<LayoutMask> held = masks.get(block.mask());
    LayoutMask mask = held == null ? null : held.get();
    if (mask == null) {
      mask = LayoutMask.read(block.mask());
      if (Math.abs(mask.width * block.umPerPx() - block.widthUm()) > 2 * block.umPerPx()) {
        throw new UncheckedIOException(
            new IOException(block.mask() + ": the mask is not as wide as its record says"));
      }
      masks.put(block.mask(), new SoftReference<>(mask));
    }
    return mask;
  }
}
