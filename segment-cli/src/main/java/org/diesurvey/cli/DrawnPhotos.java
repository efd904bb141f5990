package org.diesurvey.cli;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.function.LongFunction;
import java.util.stream.Stream;
import org.diesurvey.scoring.Truth;
import org.diesurvey.scoring.TruthFile;
import org.diesurvey.synthetic.DieFiles;
import org.diesurvey.synthetic.DrawnDie;

/** Freshly drawn dies, which go through files like any other photograph, one after the other. */
final class DrawnPhotos {
  private DrawnPhotos() {}

  /** What is done with each. */
  interface Use {
    /**
     * @param photo its file, deleted afterwards
     */
    void with(Path photo, Truth truth);
  }

  /**
   * Draws dies.
   *
   * @param draw the die of a seed
   */
  static void each(
      long firstSeed, int count, LongFunction<DrawnDie> draw, Progress progress, Use use) {
    try {
      Path folder = Files.createTempDirectory("diesurvey-drawn-");
      try {
        for (long seed = firstSeed; seed < firstSeed + count; seed++) {
          String name = "die-" + seed;
          progress.begin(name);
          Path photo = DieFiles.write(draw.apply(seed), folder, name, DieFiles.Format.PNG);
          use.with(photo, TruthFile.read(folder.resolve(name + ".json")));
          progress.end("scored");
          empty(folder);
        }
      } finally {
        empty(folder);
        Files.delete(folder);
      }
    } catch (IOException e) {
      throw new UncheckedIOException("the drawn dies cannot be written to the temporary folder", e);
    }
  }

  private static void empty(Path folder) throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      for (Path p : files.toList()) {
        Files.delete(p);
      }
    }
  }
}
