package org.diesurvey.archive.run;

import java.util.ArrayDeque;
import java.util.Iterator;
import java.util.List;
import java.util.Queue;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.diesurvey.archive.BatchPhoto;
import org.diesurvey.archive.PhotoSurveyor;

/** Checksums of photographs in their order, worked out a little ahead of the surveys. */
final class ChecksumsAhead implements AutoCloseable {
  private final Iterator<BatchPhoto> photos;
  private final PhotoSurveyor surveyor;
  private final int ahead;
  private final ExecutorService pool;
  private final Queue<Future<String>> waiting = new ArrayDeque<>();

  /**
   * @param photos in their order
   * @param surveyor can read them
   * @param threads how many are read at a time
   */
  ChecksumsAhead(List<BatchPhoto> photos, PhotoSurveyor surveyor, int threads) {
    this.photos = photos.iterator();
    this.surveyor = surveyor;
    ahead = 2 * threads;
    pool = Executors.newFixedThreadPool(threads);
  }

  /** The checksum of the next photograph; empty if it cannot be read. */
  String next() throws InterruptedException {
    while (photos.hasNext() && waiting.size() < ahead) {
      BatchPhoto photo = photos.next();
      waiting.add(pool.submit(() -> surveyor.checksum(photo)));
    }
    try {
      return waiting.remove().get();
    } catch (ExecutionException e) {
      if (e.getCause() instanceof RuntimeException fault) {
        throw fault;
      }
      throw new IllegalStateException(e.getCause());
    }
  }

  @Override
  public void close() {
    pool.shutdownNow();
  }
}
