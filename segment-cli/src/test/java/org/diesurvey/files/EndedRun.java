package org.diesurvey.files;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.List;
import java.util.stream.Stream;

/**
 * Looks at what every end of a run would leave. Before and after every single step of a disk a copy
 * of the whole folder is made, which is what a process that is ended there leaves, and looked at.
 */
public final class EndedRun {
  private EndedRun() {}

  /** Looks at a copy. */
  public interface Look {
    void at(Path copy, String step) throws IOException;
  }

  /**
   * Runs something.
   *
   * @param world all files that it reads and writes
   * @param scratch where copies are made
   * @return how many copies were looked at
   */
  public static int everywhere(Path world, Path scratch, Runnable run, Look look) {
    return every(1, world, scratch, run, look);
  }

  /**
   * The same at every so many steps only, where each look is costly.
   *
   * @param nth 1 for every step
   * @return all steps
   */
  public static int every(int nth, Path world, Path scratch, Runnable run, Look look) {
    int[] steps = {0};
    Object turn = new Object();
    ThreadLocal<Boolean> looking = ThreadLocal.withInitial(() -> false);
    Disk.watchedBy(
        (what, file) -> {
          if (looking.get() || !file.toAbsolutePath().startsWith(world)) {
            return;
          }
          synchronized (turn) {
            looking.set(true);
            try {
              if (steps[0]++ % nth != 0) {
                return;
              }
              Path copy = scratch.resolve("copy");
              copy(world, copy);
              look.at(copy, "step " + steps[0] + ", " + what + " " + world.relativize(file));
              Disk.removeMade(copy);
            } finally {
              looking.set(false);
            }
          }
        });
    try {
      run.run();
    } finally {
      Disk.watchedBy((what, file) -> {});
    }
    return steps[0];
  }

  /** Copies a folder with all in it; what another thread takes away meanwhile is left out. */
  public static void copy(Path from, Path to) {
    List<Path> all;
    try (Stream<Path> walk = Files.walk(from)) {
      all = walk.toList();
    } catch (IOException | UncheckedIOException e) {
      throw new IllegalStateException(e);
    }
    for (Path p : all) {
      try {
        Files.copy(
            p, to.resolve(from.relativize(p).toString()), StandardCopyOption.COPY_ATTRIBUTES);
      } catch (NoSuchFileException e) {
        // Gone meanwhile.
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
  }
}
