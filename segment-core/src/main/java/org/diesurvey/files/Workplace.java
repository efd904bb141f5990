package org.diesurvey.files;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;

/**
 * The hidden folder beside a result while it is written, {@code .NAME.diesurvey}: new holds what is
 * being written, old what it takes the place of, and a note says what the folder is. The note is
 * locked by the run that writes. What a run that was ended leaves here is put back or removed by
 * the next.
 */
final class Workplace implements AutoCloseable {
  private static final String ENDING = ".diesurvey";
  static final String NOTE = "in-work.txt";
  private static final String TITLE = "Diesurvey is writing, or was ended while it wrote: ";

  /** Bytes of a name that leave room for the ending; disks take 255. */
  private static final int LONGEST_NAME = 240;

  private static final int BEGINNING = 60;
  private static final String REST = "The next call that writes it makes order here.";

  private final Path target;
  private final Path place;
  private final FileChannel channel;
  private final FileLock lock;

  private Workplace(Path target, Path place, FileChannel channel, FileLock lock) {
    this.target = target;
    this.place = place;
    this.channel = channel;
    this.lock = lock;
  }

  static Path of(Path target) {
    return target.resolveSibling("." + shortened(target.getFileName().toString()) + ENDING);
  }

  /** A long name does not leave room for more letters: its beginning and its checksum stand in. */
  private static String shortened(String name) {
    if (name.getBytes(StandardCharsets.UTF_8).length <= LONGEST_NAME) {
      return name;
    }
    // Of three bytes at most each; a pair of surrogates is not cut.
    int end = Character.isHighSurrogate(name.charAt(BEGINNING - 1)) ? BEGINNING - 1 : BEGINNING;
    return name.substring(0, end) + "-" + Checksums.of(name).substring(0, 16);
  }

  /** What is being written. */
  Path fresh() {
    return place.resolve("new");
  }

  private Path old() {
    return place.resolve("old");
  }

  /**
   * Makes the folder, or takes over what an ended run left, and makes order first.
   *
   * @param names of files that may be written in it; they stand in the note
   * @return empty if another run is at work here
   * @throws IOException if it cannot be made, or something else has its name
   */
  static Optional<Workplace> open(Path target, Set<String> names) throws IOException {
    Path place = of(target);
    Optional<Workplace> held = made(target, place);
    if (held.isPresent()) {
      Workplace work = held.get();
      try {
        work.restore();
        if (Disk.there(work.fresh()) || Disk.there(work.old())) {
          throw new DieInputException(
              Reason.OUTPUT_NOT_WRITABLE,
              place + ": something in this hidden folder is not ours; move it away.");
        }
        String note = TITLE + target.getFileName() + "\n" + REST + "\n";
        Disk.rewrite(work.channel, place.resolve(NOTE), note + String.join("\n", names) + "\n");
      } catch (IOException | RuntimeException | Error e) {
        try (work) {
          throw e;
        }
      }
    }
    return held;
  }

  private static Optional<Workplace> made(Path target, Path place) throws IOException {
    for (int i = 0; ; i++) {
      try {
        if (!Disk.isFolder(place)) {
          Disk.folder(place);
        }
        return hold(target, place, true);
      } catch (NoSuchFileException | FileAlreadyExistsException e) {
        // Another call made order, or the folder, just now.
        if (i == 2) {
          throw e;
        }
      }
    }
  }

  private static Optional<Workplace> hold(Path target, Path place, boolean make)
      throws IOException {
    Path note = place.resolve(NOTE);
    if (!isNote(note)) {
      try (Stream<Path> inside = Files.list(place)) {
        if (!make || inside.findAny().isPresent()) {
          throw new IOException(place + " is in the way");
        }
      }
    }
    FileChannel channel = Disk.lockable(note);
    FileLock lock = null;
    try {
      lock = channel.tryLock();
    } catch (OverlappingFileLockException e) {
      // Another run of this process.
    }
    if (lock == null) {
      channel.close();
      return Optional.empty();
    }
    return Optional.of(new Workplace(target, place, channel, lock));
  }

  /** Names of files that the note allows to be removed. */
  private Set<String> names() throws IOException {
    List<String> lines = Files.readAllLines(place.resolve(NOTE), StandardCharsets.UTF_8);
    return Set.copyOf(lines.subList(Math.min(2, lines.size()), lines.size()));
  }

  /** The note, or the beginning of one: a run may have been ended while it wrote it. */
  private static boolean isNote(Path note) throws IOException {
    if (!Disk.isFile(note)) {
      return false;
    }
    String text = Files.readString(note, StandardCharsets.UTF_8);
    return TITLE.startsWith(text) || text.startsWith(TITLE);
  }

  /** Puts what is new in the place of what is there. */
  void exchange() throws IOException {
    if (!Disk.there(target)) {
      Disk.move(fresh(), target);
      return;
    }
    Disk.move(target, old());
    try {
      Disk.move(fresh(), target);
    } catch (IOException e) {
      Disk.move(old(), target);
      throw e;
    }
    try {
      settle();
    } catch (IOException e) {
      throw new DieInputException(
          Reason.OUTPUT_NOT_WRITABLE,
          target
              + ": the result is written, but what lay in the folder before is still in "
              + old()
              + "; the next call that writes it moves it back.",
          e);
    }
  }

  /** Hands on what is somebody's, and removes the rest of what was replaced. */
  private void settle() throws IOException {
    OwnFolder before = OwnFolder.byList(old());
    before.handOver(target);
    before.remove();
  }

  /** Puts back, or settles, what an ended run left, and removes what it had begun. */
  void restore() throws IOException {
    if (Disk.isFolder(old())) {
      if (Disk.there(target)) {
        settle();
      } else {
        Disk.move(old(), target);
      }
    }
    removeBegun(fresh(), names());
  }

  /** Removes files of the given names below a folder, and the folders that are empty then. */
  static void removeBegun(Path folder, Set<String> names) throws IOException {
    if (!Disk.isFolder(folder)) {
      return;
    }
    List<Path> all;
    try (Stream<Path> walk = Files.walk(folder)) {
      all = walk.filter(p -> Disk.isFile(p) && names.contains(p.getFileName().toString())).toList();
    }
    for (Path p : all) {
      Disk.remove(p);
    }
    OwnFolder.removeEmpty(folder);
  }

  /** Removes the folder; what could not be settled stays in it for the next run. */
  @Override
  public void close() throws IOException {
    try {
      removeBegun(fresh(), names());
      boolean only;
      try (Stream<Path> inside = Files.list(place)) {
        only = inside.allMatch(p -> p.getFileName().toString().equals(NOTE));
      }
      if (only) {
        Disk.remove(place.resolve(NOTE));
        Disk.removeIfEmpty(place);
      }
    } finally {
      letGo();
    }
  }

  private void letGo() throws IOException {
    lock.release();
    channel.close();
  }

  /** Whether there is something left of a run that was ended, or one at work. */
  private static boolean isOne(Path folder) {
    try {
      return isNamed(folder) && isNote(folder.resolve(NOTE));
    } catch (IOException e) {
      return false;
    }
  }

  private static boolean isNamed(Path folder) {
    String name = folder.getFileName().toString();
    return name.startsWith(".")
        && name.endsWith(ENDING)
        && name.length() > ENDING.length() + 1
        && Disk.isFolder(folder);
  }

  /** Of the result; a shortened one stands whole in the note, before anything is moved. */
  private static String name(Path place) throws IOException {
    String hidden = place.getFileName().toString();
    String name = hidden.substring(1, hidden.length() - ENDING.length());
    String note = Files.readString(place.resolve(NOTE), StandardCharsets.UTF_8);
    int end = note.indexOf("\n" + REST + "\n");
    if (end < TITLE.length()) {
      return name;
    }
    String whole = note.substring(TITLE.length(), end);
    return shortened(whole).equals(name) ? whole : name;
  }

  /**
   * Makes order in a folder after runs that were ended in it.
   *
   * @return names of the results that were put back or freed of what was left beside them
   */
  static Collection<String> restoreAll(Path folder) throws IOException {
    List<Path> places;
    try (Stream<Path> inside = Files.list(folder)) {
      places = inside.filter(Workplace::isNamed).sorted().toList();
    }
    TreeSet<String> done = new TreeSet<>();
    for (Path place : places) {
      if (!isOne(place)) {
        // Ended before the note was begun; anything else stays.
        Disk.removeIfEmpty(place);
        continue;
      }
      String name = name(place);
      Optional<Workplace> work = hold(folder.resolve(name), place, false);
      if (work.isPresent()) {
        try (Workplace w = work.get()) {
          w.restore();
        }
        done.add(name);
      }
    }
    return done;
  }
}
