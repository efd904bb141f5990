package org.diesurvey.archive.run;

import java.io.IOException;
import java.io.StringReader;
import java.net.URI;
import java.net.URISyntaxException;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;
import java.util.regex.Pattern;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.diesurvey.BoundedFile;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.archive.BatchPhoto;
import org.diesurvey.archive.PhotoLabels;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.estimates.DensityTable;
import org.diesurvey.pipeline.ScaleInput;

/**
 * A list of photographs with what is known of each: CSV (RFC 4180, UTF-8) with a header line. Only
 * the column photo is required; columns may stand in any order, an empty cell says nothing.
 */
public final class Manifest {
  /** Largest manifest that is read, bytes: a million photographs of 64 letters each. */
  private static final long MOST_BYTES = 64L << 20;

  /** Columns that a manifest may have. */
  public static final List<String> COLUMNS =
      List.of(
          "photo",
          "um_per_px",
          "u_um_per_px",
          "scale_origin",
          "node_nm",
          "plane",
          "die_name",
          "revision",
          "layer",
          "notes");

  private static final Pattern URI_LIKE = Pattern.compile("[A-Za-z][A-Za-z0-9+.-]+:/.*");

  private final List<String> faults = new ArrayList<>();
  private final Map<String, Long> lines = new HashMap<>();
  private final Path folder;
  private final ScaleInput otherwise;
  private final DensityTable nodes;

  private Manifest(Path folder, ScaleInput otherwise, DensityTable nodes) {
    this.folder = folder;
    this.otherwise = otherwise;
    this.nodes = nodes;
  }

  /**
   * Reads a manifest. Whether the photographs can be read is not looked at here.
   *
   * @param file the manifest; paths in it are relative to its folder
   * @param otherwise scale of rows that state none
   * @param nodes table that a node in a row must lie in
   * @throws DieInputException DOCUMENT_INVALID naming every bad line with its number, or
   *     FILE_MISSING, FILE_UNREADABLE
   */
  public static List<BatchPhoto> read(Path file, ScaleInput otherwise, DensityTable nodes) {
    Path folder = file.toAbsolutePath().normalize().getParent();
    Manifest reader = new Manifest(folder, otherwise, nodes);
    List<BatchPhoto> photos = reader.rows(text(file), file);
    if (!reader.faults.isEmpty()) {
      throw invalid(file, String.join("; ", reader.faults));
    }
    if (photos.isEmpty()) {
      throw invalid(file, "no line names a photograph");
    }
    return photos;
  }

  private static String text(Path file) {
    if (!Files.isRegularFile(file)) {
      throw new DieInputException(
          Reason.FILE_MISSING, file + ": there is no manifest here; check the name.");
    }
    try {
      String text =
          StandardCharsets.UTF_8
              .newDecoder()
              .decode(ByteBuffer.wrap(BoundedFile.bytes(file, MOST_BYTES, Reason.DOCUMENT_INVALID)))
              .toString();
      return text.startsWith("\ufeff") ? text.substring(1) : text;
    } catch (CharacterCodingException e) {
      throw invalid(file, "the file is not UTF-8");
    } catch (IOException e) {
      throw new DieInputException(
          Reason.FILE_UNREADABLE, file + ": the manifest cannot be read.", e);
    }
  }

  private List<BatchPhoto> rows(String text, Path file) {
    CSVFormat format =
        CSVFormat.RFC4180
            .builder()
            .setHeader()
            .setSkipHeaderRecord(true)
            .setIgnoreEmptyLines(true)
            .setTrim(true)
            .get();
    List<BatchPhoto> photos = new ArrayList<>();
    try (CSVParser rows = CSVParser.parse(new StringReader(text), format)) {
      checkHeader(rows.getHeaderNames(), file);
      for (CSVRecord row : rows) {
        long line = rows.getCurrentLineNumber();
        try {
          photos.add(row(row, line));
        } catch (DieInputException | IllegalArgumentException e) {
          faults.add("line " + line + ": " + sentence(e.getMessage()));
        }
      }
    } catch (IOException | java.io.UncheckedIOException | IllegalArgumentException e) {
      throw new DieInputException(
          Reason.DOCUMENT_INVALID,
          file + ": this is no table of comma-separated values (" + e.getMessage() + ").",
          e);
    }
    return photos;
  }

  private static String sentence(String message) {
    return message.endsWith(".") ? message.substring(0, message.length() - 1) : message;
  }

  private static void checkHeader(List<String> names, Path file) {
    if (!names.contains("photo")) {
      throw invalid(
          file,
          "line 1: the column photo is missing (columns: " + String.join(", ", COLUMNS) + ")");
    }
    for (String name : names) {
      if (!COLUMNS.contains(name)) {
        throw invalid(
            file,
            "line 1: unknown column '" + name + "' (columns: " + String.join(", ", COLUMNS) + ")");
      }
    }
  }

  private BatchPhoto row(CSVRecord row, long line) {
    if (!row.isConsistent()) {
      throw new IllegalArgumentException(
          "has " + row.size() + " cells, the header " + row.getParser().getHeaderNames().size());
    }
    BatchPhoto photo = photo(row);
    Long before = lines.putIfAbsent(photo.place(), line);
    if (before != null) {
      throw new IllegalArgumentException("names the same photograph as line " + before);
    }
    return photo;
  }

  private BatchPhoto photo(CSVRecord row) {
    String name =
        cell(row, "photo")
            .orElseThrow(() -> new IllegalArgumentException("names no photograph (column photo)"));
    OptionalDouble node = number(row, "node_nm");
    node.ifPresent(nodes::requireNode);
    PhotoLabels labels =
        new PhotoLabels(
            cell(row, "die_name"), cell(row, "revision"), cell(row, "layer"), cell(row, "notes"));
    try {
      BatchPhoto photo =
          URI_LIKE.matcher(name).matches()
              ? BatchPhoto.stored(new URI(name), scale(row), node, labels)
              : new BatchPhoto(folder.resolve(name).normalize(), scale(row), node, labels);
      return photo.withPlane(plane(row));
    } catch (InvalidPathException | URISyntaxException e) {
      throw new IllegalArgumentException("'" + name + "' cannot be the name of a file", e);
    }
  }

  private ScaleInput scale(CSVRecord row) {
    OptionalDouble pitch = number(row, "um_per_px");
    OptionalDouble u = number(row, "u_um_per_px");
    Optional<String> origin = cell(row, "scale_origin");
    if (pitch.isEmpty()) {
      if (u.isPresent() || origin.isPresent()) {
        throw new IllegalArgumentException(
            (u.isPresent() ? "u_um_per_px" : "scale_origin") + " without um_per_px");
      }
      return otherwise;
    }
    Calibration stated = Calibration.ofPixelPitch(pitch.getAsDouble(), u.orElse(0));
    return new ScaleInput.Known(
        new Calibration(stated.umPerPx(), stated.origin(), origin.orElse(stated.note())));
  }

  private static OptionalInt plane(CSVRecord row) {
    OptionalDouble plane = number(row, "plane");
    if (plane.isEmpty()) {
      return OptionalInt.empty();
    }
    double n = plane.getAsDouble();
    if (n < 1 || n > Integer.MAX_VALUE || n != Math.rint(n)) {
      throw new IllegalArgumentException("plane must be the number of a picture, 1 or more");
    }
    return OptionalInt.of((int) n);
  }

  private static Optional<String> cell(CSVRecord row, String column) {
    return row.isMapped(column) && !row.get(column).isBlank()
        ? Optional.of(row.get(column).strip())
        : Optional.empty();
  }

  private static final Set<Character> NUMBER_SIGNS =
      Set.of('0', '1', '2', '3', '4', '5', '6', '7', '8', '9', '.', 'e', 'E', '+', '-');

  private static OptionalDouble number(CSVRecord row, String column) {
    Optional<String> cell = cell(row, column);
    if (cell.isEmpty()) {
      return OptionalDouble.empty();
    }
    String text = cell.get();
    try {
      if (text.chars().allMatch(c -> NUMBER_SIGNS.contains((char) c))) {
        return OptionalDouble.of(Double.parseDouble(text));
      }
    } catch (NumberFormatException e) {
      // Told below, in the words of the table.
    }
    throw new IllegalArgumentException(
        String.format(
            Locale.ROOT, "%s '%s' is not a number (write 0.5, without a unit)", column, text));
  }

  private static DieInputException invalid(Path file, String what) {
    return new DieInputException(
        Reason.DOCUMENT_INVALID, file + ": " + what + ". Correct the manifest; nothing was done.");
  }
}
