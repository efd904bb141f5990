package org.diesurvey.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** A model and a photograph for tests of the command; small, quick and no good for real dies. */
final class SmallModel {
  static final String[] TRAINING = {
    "train",
    "--dies",
    "40",
    "--sparse",
    "0",
    "--seed",
    "40",
    "--megapixels",
    "0.25",
    "--tiles",
    "12",
    "--quiet"
  };

  private static Path model;
  private static Path photo;

  private SmallModel() {}

  /** The model's file, trained on first use. */
  static synchronized Path model() {
    if (model == null) {
      Path file = folder().resolve("model.json.gz");
      Object[] args = new Object[TRAINING.length + 2];
      System.arraycopy(TRAINING, 0, args, 0, TRAINING.length);
      args[TRAINING.length] = "--out";
      args[TRAINING.length + 1] = file;
      Call call = Call.of(args);
      assertEquals(0, call.code(), call.err());
      model = file;
    }
    return model;
  }

  /** A drawn die, 1 um/px, drawn on first use; its truth lies beside it. */
  static synchronized Path photo() {
    if (photo == null) {
      Path folder = folder();
      Call call =
          Call.of(
              "draw",
              "--seed",
              3,
              "--megapixels",
              0.4,
              "--um-per-px",
              1,
              "--framing",
              "whole_die",
              "--out",
              folder);
      assertEquals(0, call.code(), call.err());
      photo = folder.resolve("die-3.png");
    }
    return photo;
  }

  private static Path folder() {
    try {
      Path folder = Files.createTempDirectory("diesurvey-test-");
      Runtime.getRuntime().addShutdownHook(new Thread(() -> delete(folder)));
      return folder;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static void delete(Path folder) {
    try (var files = Files.list(folder)) {
      for (Path p : files.toList()) {
        Files.delete(p);
      }
      Files.delete(folder);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
