package org.diesurvey.cli;

import java.io.BufferedInputStream;
import java.io.BufferedOutputStream;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.LongFunction;
import java.util.stream.Stream;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.features.FeatureSchema;
import org.diesurvey.pipeline.SegmentSettings;
import org.diesurvey.synthetic.LayoutLibrary;
import org.diesurvey.training.LabelledTiles;

/**
 * Training dies as they were drawn and worked out, one file each, so that a run that was ended goes
 * on, and a change of the classifier alone draws nothing again. A folder serves one way of drawing:
 * it is named in it, and another one is refused.
 */
final class TrainingStore {
  private static final String MADE = "made.txt";

  /** What a file holds, and how; raised when that changes. */
  private static final int FORM = 2;

  private static final int BUFFER = 1 << 16;

  private final Path folder;

  private TrainingStore(Path folder) {
    this.folder = folder;
  }

  /**
   * Opens or begins a store.
   *
   * @throws WrongOption if the folder holds dies of another way of drawing, or other files
   */
  static TrainingStore open(Path folder, double megapixels, Optional<LayoutLibrary> library) {
    String made =
        String.format(
            Locale.ROOT,
            "form %d%nmegapixels %s%ntile %s um%nfeatures %d, %08x%nlayouts %s%n",
            FORM,
            megapixels,
            SegmentSettings.DEFAULT_TILE_UM,
            FeatureSchema.CURRENT.size(),
            FeatureSchema.CURRENT.names().hashCode(),
            library.map(LayoutLibrary::fingerprint).orElse("none"));
    try {
      Files.createDirectories(folder);
      Path mark = folder.resolve(MADE);
      if (Files.exists(mark)) {
        if (!Files.readString(mark).equals(made)) {
          throw new WrongOption(
              "--work",
              "names " + folder + ", which holds dies drawn in another way; name another folder");
        }
      } else {
        try (Stream<Path> files = Files.list(folder)) {
          if (files.findAny().isPresent()) {
            throw new WrongOption(
                "--work", "names " + folder + ", which holds other files; name an empty folder");
          }
        }
        Files.writeString(mark, made);
      }
      return new TrainingStore(folder);
    } catch (IOException e) {
      throw notUsable(folder, e);
    }
  }

  private static DieInputException notUsable(Path folder, IOException e) {
    return new DieInputException(
        Reason.OUTPUT_NOT_WRITABLE,
        folder + ": the training dies cannot be kept there; choose another --work.",
        e);
  }

  /** Those of the seeds that are not kept yet, in their order. */
  List<Long> missing(List<Integer> seeds) {
    return seeds.stream().map(Integer::longValue).filter(s -> !Files.exists(file(s))).toList();
  }

  /** Works out a die and keeps it. */
  void keep(long seed, LongFunction<LabelledTiles> draw) {
    try {
      LabelledTiles die = draw.apply(seed);
      // A file appears whole or not at all.
      Path fresh = file(seed).resolveSibling(file(seed).getFileName() + ".part");
      try (DataOutputStream out =
          new DataOutputStream(new BufferedOutputStream(Files.newOutputStream(fresh), BUFFER))) {
        die.write(out);
      }
      Files.move(fresh, file(seed));
    } catch (IOException e) {
      throw notUsable(folder, e);
    }
  }

  LabelledTiles read(long seed) {
    try (DataInputStream in =
        new DataInputStream(new BufferedInputStream(Files.newInputStream(file(seed)), BUFFER))) {
      return LabelledTiles.read(in);
    } catch (IOException e) {
      throw notUsable(folder, e);
    }
  }

  /** Removes what this store wrote, and the folder if nothing else is in it. */
  void remove(List<Integer> seeds) {
    try {
      for (int seed : seeds) {
        Files.deleteIfExists(file(seed));
      }
      Files.deleteIfExists(folder.resolve(MADE));
      Files.delete(folder);
    } catch (IOException e) {
      throw notUsable(folder, e);
    }
  }

  private Path file(long seed) {
    return folder.resolve("die-" + seed + ".tiles");
  }
}
