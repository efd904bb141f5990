package org.diesurvey.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.diesurvey.BoundedFile;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.classification.model.TileClassifier;
import org.diesurvey.pipeline.DieSegmenter;
import org.diesurvey.pipeline.SegmentSettings;
import picocli.CommandLine.Option;

/** Which model surveys, and on how many threads. */
final class ModelOptions {
  @Option(
      names = "--model",
      paramLabel = "FILE",
      description = "Model made with the command train or teach; the shipped one by default.")
  private Path model;

  /** Largest file that is read, bytes; the shipped one has 0.6 million. */
  private static final long MOST_BYTES = 64L << 20;

  @Option(
      names = "--threads",
      paramLabel = "N",
      description = "Worker threads, 1 to 256; all processors by default. Never changes results.")
  private Integer threads;

  /**
   * The segmenter.
   *
   * @throws DieInputException for a bad model file, or a number of threads out of range
   */
  DieSegmenter segmenter() {
    SegmentSettings settings = SegmentSettings.defaults().withThreads(threads());
    if (model == null) {
      return DieSegmenter.withDefaults().with(settings);
    }
    return DieSegmenter.of(read(model)).with(settings);
  }

  /** The model's file; empty for the shipped one. */
  Optional<Path> file() {
    return Optional.ofNullable(model);
  }

  /** Threads asked for, or one per processor. */
  int threads() {
    int n = threads == null ? SegmentSettings.defaults().threads() : threads;
    if (n < 1 || n > 256) {
      throw new WrongOption("--threads", "must be a number from 1 to 256, was " + n);
    }
    return n;
  }

  /** Whether a file is a whole model: this program wrote it, and nobody edits one. */
  static boolean isModel(Path file) {
    try {
      read(file);
      return true;
    } catch (DieInputException e) {
      return false;
    }
  }

  static TileClassifier read(Path file) {
    if (!Files.isRegularFile(file)) {
      throw new DieInputException(
          Reason.MODEL_INVALID,
          file + ": there is no model file here; check the name, or leave out --model.");
    }
    try {
      return TileClassifier.of(
          BoundedFile.bytes(file, MOST_BYTES, Reason.MODEL_INVALID), file.toString());
    } catch (IOException e) {
      throw new DieInputException(
          Reason.MODEL_INVALID, file + ": the model file cannot be read.", e);
    }
  }
}
