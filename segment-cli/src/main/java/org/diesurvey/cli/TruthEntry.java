package org.diesurvey.cli;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;

/**
 * A truth file and the photograph that it belongs to.
 *
 * @param file truth file
 * @param photo photograph named by its member "image", in the same folder
 */
record TruthEntry(Path file, Path photo) {

  /**
   * The truth files named, and those in the folders named, in the order of the call, folders by
   * name. In a folder only JSON files count that name an image and have a label map.
   *
   * @throws DieInputException if a path does not exist, a named file is no truth file, or a folder
   *     holds none
   */
  static List<TruthEntry> of(List<Path> paths) {
    List<TruthEntry> entries = new ArrayList<>();
    for (Path path : paths) {
      if (Files.isDirectory(path)) {
        List<TruthEntry> inside = inFolder(path);
        if (inside.isEmpty()) {
          throw new DieInputException(
              Reason.DOCUMENT_INVALID,
              path + ": there is no truth file in this folder; name the JSON files themselves.");
        }
        entries.addAll(inside);
      } else {
        entries.add(
            entry(path)
                .orElseThrow(
                    () ->
                        new DieInputException(
                            Files.exists(path) ? Reason.DOCUMENT_INVALID : Reason.FILE_MISSING,
                            path
                                + (Files.exists(path)
                                    ? ": this is no truth file (a JSON object that names an image);"
                                        + " name the file beside the label map."
                                    : ": there is no such truth file; check the name."))));
      }
    }
    return entries;
  }

  private static List<TruthEntry> inFolder(Path folder) {
    List<Path> files;
    try (Stream<Path> all = Files.list(folder)) {
      files = all.filter(p -> p.toString().endsWith(".json")).sorted().toList();
    } catch (IOException e) {
      throw new DieInputException(
          Reason.FILE_UNREADABLE, folder + ": this folder cannot be read.", e);
    }
    return files.stream()
        .flatMap(f -> entry(f).stream())
        .filter(
            e ->
                Files.exists(e.file().resolveSibling(SurveyFolders.stem(e.file()) + "_labels.png")))
        .toList();
  }

  private static Optional<TruthEntry> entry(Path file) {
    if (!Files.isRegularFile(file)) {
      return Optional.empty();
    }
    try {
      JsonNode root = JsonMapper.builder().build().readTree(Files.readAllBytes(file));
      String image = root == null ? "" : root.path("image").asText();
      return image.isEmpty()
          ? Optional.empty()
          : Optional.of(new TruthEntry(file, file.resolveSibling(image)));
    } catch (IOException e) {
      return Optional.empty();
    }
  }
}
