package org.diesurvey.cli;

import java.util.concurrent.CompletableFuture;
import org.diesurvey.photo.PixelSource;
import org.diesurvey.report.picture.PhotoPictures;

/**
 * Pictures of a photograph that are made while its regions are formed: then only one thread has
 * work. On closing nothing reads the photograph any more.
 */
final class PicturesAhead implements AutoCloseable {
  /** The stage after which the survey no longer keeps all processors busy. */
  private static final String BEGIN_AFTER = "classification";

  private final PhotoPictures pictures;
  private CompletableFuture<Void> making = CompletableFuture.completedFuture(null);

  PicturesAhead(PixelSource photo) {
    this.pictures = PhotoPictures.of(photo);
  }

  /** To be told when a stage of the survey is done. */
  void stageDone(String stage) {
    if (stage.equals(BEGIN_AFTER)) {
      making = CompletableFuture.runAsync(pictures::make);
    }
  }

  PhotoPictures pictures() {
    return pictures;
  }

  /** Waits; a fault is left to whoever asks for the pictures, and gets it again. */
  @Override
  public void close() {
    making.handle((done, fault) -> done).join();
  }
}
