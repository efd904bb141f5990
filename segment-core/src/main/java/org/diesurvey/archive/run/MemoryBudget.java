package org.diesurvey.archive.run;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Iterator;
import java.util.concurrent.Semaphore;
import javax.imageio.ImageIO;
import javax.imageio.ImageReader;
import javax.imageio.stream.ImageInputStream;
import org.diesurvey.archive.BatchPhoto;

/**
 * Memory that photographs in work may take together. A photograph takes its share, by the size that
 * its header states; one that needs more than all there is runs alone.
 */
final class MemoryBudget {
  /** Memory for each pixel of a photograph in work: 471 MiB at 12 MP, measured, rounded up. */
  private static final int BYTES_PER_PIXEL = 48;

  private static final double SHARE_OF_HEAP = 0.6;
  private static final int UNIT_BYTES = 1 << 20;

  private final int units;
  private final boolean elsewhere;
  private final Semaphore free;

  /**
   * @param heapBytes memory allowed to the processes that survey, together; Long.MAX_VALUE if they
   *     are on other computers
   */
  MemoryBudget(long heapBytes) {
    elsewhere = heapBytes == Long.MAX_VALUE;
    units = (int) Math.max(64, Math.min(1 << 20, SHARE_OF_HEAP * heapBytes / UNIT_BYTES));
    free = new Semaphore(units, true);
  }

  /** Units that a photograph takes. */
  int share(BatchPhoto photo) {
    if (elsewhere) {
      return 0;
    }
    double mib = (double) pixels(photo.file()) * BYTES_PER_PIXEL / UNIT_BYTES;
    return (int) Math.max(1, Math.min(units, Math.ceil(mib)));
  }

  /** Whether a photograph of this share runs alone, and so may use every thread. */
  boolean alone(int share) {
    return share > units / 2;
  }

  void take(int share) throws InterruptedException {
    free.acquire(share);
  }

  void give(int share) {
    free.release(share);
  }

  /** By the header; where that cannot be read, as many pixels as the file has bytes. */
  private static long pixels(Path photo) {
    try (ImageInputStream in = ImageIO.createImageInputStream(photo.toFile())) {
      Iterator<ImageReader> readers = ImageIO.getImageReaders(in);
      if (readers.hasNext()) {
        ImageReader reader = readers.next();
        try {
          reader.setInput(in, true, true);
          return (long) reader.getWidth(0) * reader.getHeight(0);
        } finally {
          reader.dispose();
        }
      }
    } catch (IOException | RuntimeException e) {
      // A damaged header is the survey's business; here the size of the file stands in.
    }
    try {
      return Files.size(photo);
    } catch (IOException e) {
      return 1;
    }
  }
}
