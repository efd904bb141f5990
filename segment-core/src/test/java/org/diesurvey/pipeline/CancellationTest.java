package org.diesurvey.pipeline;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicReference;
import java.util.stream.IntStream;
import org.diesurvey.Cancellation;
import org.diesurvey.CancelledException;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.synthetic.DieDrawing;
import org.diesurvey.synthetic.DieFiles;
import org.diesurvey.synthetic.DrawOptions;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Work that is cancelled or interrupted ends soon and leaves no thread. */
class CancellationTest {
  /** Half a second is promised; the rest is for a computer that is busy with other tests. */
  private static final long MOST_MS = 1500;

  @TempDir private static Path folder;

  private static Path photo;

  @BeforeAll
  static void draw() throws IOException {
    DrawOptions options = DrawOptions.defaults().withUmPerPx(0.5).withMaxMegapixels(4);
    photo = DieFiles.write(DieDrawing.draw(12, options), folder, "d", DieFiles.Format.PNG);
  }

  /** Starts a survey without a scale, the longest kind, and ends it after a stage. */
  private static Throwable endedAfter(String stage, boolean interrupt) throws Exception {
    Cancellation wish = new Cancellation();
    CountDownLatch reached = new CountDownLatch(1);
    AtomicReference<Throwable> thrown = new AtomicReference<>();
    Thread caller =
        new Thread(
            () -> {
              try (DiePhoto p = DiePhoto.open(photo)) {
                DieSegmenter.withDefaults()
                    .with(wish)
                    .survey(
                        p,
                        ScaleInput.NONE,
                        done -> {
                          if (done.equals(stage)) {
                            reached.countDown();
                          }
                        });
              } catch (RuntimeException e) {
                thrown.set(e);
              }
            });
    caller.start();
    reached.await();
    Thread.sleep(100);
    long start = System.nanoTime();
    if (interrupt) {
      caller.interrupt();
    } else {
      wish.cancel();
    }
    caller.join();
    long ms = (System.nanoTime() - start) / 1_000_000;
    assertTrue(ms <= MOST_MS, "ended after " + ms + " ms");
    assertNoWorkers();
    return thrown.get();
  }

  private static void assertNoWorkers() throws InterruptedException {
    for (int i = 0; i < 40 && workers() > 0; i++) {
      Thread.sleep(100);
    }
    assertEquals(0, workers(), "threads of the survey still run");
  }

  private static long workers() {
    return Thread.getAllStackTraces().keySet().stream()
        .filter(t -> t.getName().startsWith("ForkJoinPool-"))
        .count();
  }

  @ParameterizedTest
  @ValueSource(strings = {"read", "scale"})
  void cancelledSurvey_ends(String stage) throws Exception {
    assertInstanceOf(CancelledException.class, endedAfter(stage, false));
  }

  @Test
  void interruptedSurvey_endsAndIsNotTakenForABrokenDrive() throws Exception {
    Throwable e = endedAfter("scale", true);
    assertInstanceOf(CancelledException.class, e);
    assertEquals("cancelled while surveying d.png", e.getMessage());
  }

  @Test
  void readingInAnInterruptedThread_isCancelled() {
    Thread.currentThread().interrupt();
    try {
      assertThrows(CancelledException.class, () -> DiePhoto.open(photo));
    } finally {
      assertTrue(Thread.interrupted(), "the mark stays");
    }
  }

  @Test
  void workCancelledBefore_doesNotBegin() {
    Cancellation wish = new Cancellation();
    wish.cancel();
    AtomicReference<Boolean> begun = new AtomicReference<>(false);
    assertThrows(
        CancelledException.class,
        () -> Workers.run(1, "testing", wish, () -> begun.getAndSet(true)));
    assertFalse(begun.get());
  }

  /** Parts of parallel work that have not begun are left out; those that run see the mark. */
  @Test
  void parallelParts_areGivenUp() throws Exception {
    Cancellation wish = new Cancellation();
    CountDownLatch begun = new CountDownLatch(1);
    Thread other =
        new Thread(
            () -> {
              try {
                begun.await();
              } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
              }
              wish.cancel();
            });
    other.start();
    long start = System.nanoTime();
    assertThrows(
        CancelledException.class,
        () ->
            Workers.run(
                2,
                "testing",
                wish,
                () -> {
                  IntStream.range(0, 1000)
                      .parallel()
                      .forEach(
                          i -> {
                            begun.countDown();
                            long until = System.nanoTime() + 100_000_000L;
                            while (System.nanoTime() < until) {
                              Cancellation.check();
                            }
                          });
                  return List.of();
                }));
    other.join();
    assertTrue(System.nanoTime() - start < MOST_MS * 1_000_000, "50 s of work were given up");
  }
}
