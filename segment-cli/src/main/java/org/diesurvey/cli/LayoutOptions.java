package org.diesurvey.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.diesurvey.synthetic.LayoutLibrary;
import picocli.CommandLine.Option;

/** Where the layer masks of real layouts lie that drawn dies may be filled with. */
final class LayoutOptions {
  @Option(
      names = "--layouts",
      paramLabel = "DIR",
      description =
          "Folder of layer masks of real layouts, each with its record beside it, that drawn dies"
              + " are filled with; drawings alone by default.")
  private Path folder;

  /** The masks; none where no folder is named. */
  Optional<LayoutLibrary> library() {
    if (folder == null) {
      return Optional.empty();
    }
    if (!Files.isDirectory(folder)) {
      throw new WrongOption("--layouts", "must name a folder, but " + folder + " is none");
    }
    try {
      LayoutLibrary library = LayoutLibrary.open(folder);
      if (library.blocks().isEmpty()) {
        throw new WrongOption(
            "--layouts", "must name a folder that holds layer masks; " + folder + " holds none");
      }
      return Optional.of(library);
    } catch (IOException e) {
      throw new WrongOption("--layouts", "cannot be read: " + e.getMessage());
    }
  }
}
