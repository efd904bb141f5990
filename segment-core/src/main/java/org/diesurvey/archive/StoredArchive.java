package org.diesurvey.archive;

import java.io.IOException;
import java.net.InetAddress;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.UUID;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.locks.ReentrantLock;
import org.diesurvey.DieInputException;
import org.diesurvey.report.SurveyFolder;
import org.diesurvey.survey.SurveyJson;

/**
 * An archive in a store. Each attempt at a survey lies below .work under a name of its own; the run
 * moves the one that counts to photos/NAME, the list of checksums last, and only then writes rows.
 * The database is on this computer. It goes to the store under new names, the SHA-256 in each, so
 * that a run that is stopped always leaves a whole one. A complete survey whose rows were lost with
 * the run is noted by the next, not done again.
 */
final class StoredArchive implements ArchivePlace {
  /** In the working folder of a survey: the folder of the store that holds its files. */
  static final String ATTEMPT = "attempt.txt";

  /** Below it lie the attempts of runs. */
  static final String WORK = ".work";

  private static final String LOCK = ".lock";
  private static final String STATE = ".state";

  /** Between copies of the database, at least. */
  static final Duration BETWEEN_COPIES = Duration.ofMinutes(1);

  private static final int TIMES_AS_LONG_AS_A_COPY = 20;

  private final ArchiveStore store;
  private final Path root;
  private final String lock;
  private final String run = UUID.randomUUID().toString();
  private final Map<String, SortedMap<String, Long>> unnoted = new ConcurrentHashMap<>();
  private final Set<String> complete = ConcurrentHashMap.newKeySet();
  private final ReentrantLock copying = new ReentrantLock();
  private final Duration betweenCopies;
  private long copies;
  private volatile long nextCopy;

  private StoredArchive(ArchiveStore store, Path root, String lock, Duration betweenCopies) {
    this.store = store;
    this.root = root;
    this.lock = lock;
    this.betweenCopies = betweenCopies;
    nextCopy = System.nanoTime() + betweenCopies.toNanos();
  }

  /**
   * Opens an archive for writing; makes it if there is nothing.
   *
   * @param betweenCopies of the database, at least; zero for one after every survey
   * @throws DieInputException OUTPUT_NOT_WRITABLE if it cannot be written, holds something else, or
   *     another run holds it
   */
  static StoredArchive open(
      ArchiveStore store, Path staging, boolean takeOver, Duration betweenCopies) {
    try {
      Path parent = Files.createDirectories(staging.toAbsolutePath().normalize());
      Path root = Files.createTempDirectory(parent, "diesurvey-archive-");
      String lock;
      try {
        lock = held(store, root, takeOver);
      } catch (IOException | RuntimeException e) {
        DurableFiles.delete(root);
        throw e;
      }
      StoredArchive archive = new StoredArchive(store, root, lock, betweenCopies);
      try {
        store.remove(WORK);
        archive.fetchDatabase();
        return archive;
      } catch (IOException | RuntimeException e) {
        archive.close();
        throw e;
      }
    } catch (IOException e) {
      throw unwritable(store, e);
    }
  }

  private static DieInputException unwritable(ArchiveStore store, IOException e) {
    return ArchiveFolder.refused(
        store.place() + ": an archive cannot be written here (" + e.getMessage() + ").", e);
  }

  private static String held(ArchiveStore store, Path root, boolean takeOver) throws IOException {
    String mine =
        InetAddress.getLocalHost().getHostName()
            + ", process "
            + ProcessHandle.current().pid()
            + ", since "
            + Instant.now().toString().substring(0, 19)
            + "Z, "
            + UUID.randomUUID();
    if (takeOver) {
      store.remove(LOCK);
    }
    boolean made = store.make(LOCK, mine);
    String held = text(store, root, LOCK).orElse("");
    if (!made || !held.equals(mine)) {
      throw ArchiveFolder.refused(
          store.place()
              + ": another run is writing to this archive ("
              + (held.isEmpty() ? "ended just now" : held)
              + "); wait for its end. If it was killed, call again with --take-over.",
          null);
    }
    return mine;
  }

  private static Optional<String> text(ArchiveStore store, Path root, String name)
      throws IOException {
    Path file = Files.createTempFile(root, "object", ".txt");
    try {
      return store.get(name, file)
          ? Optional.of(Files.readString(file, StandardCharsets.UTF_8))
          : Optional.empty();
    } finally {
      Files.deleteIfExists(file);
    }
  }

  /** The newest copy that is whole; else the database as an undisturbed run left it. */
  private void fetchDatabase() throws IOException {
    List<String> states = new ArrayList<>(store.below(STATE).keySet());
    for (int i = states.size() - 1; i >= 0; i--) {
      String[] parts = states.get(i).split("[-.]");
      boolean whole =
          parts.length == 3
              && parts[0].matches("[0-9]{12}")
              && store.get(STATE + "/" + states.get(i), database())
              && Checksums.of(database()).equals(parts[1]);
      if (whole) {
        copies = Math.max(copies, Long.parseLong(parts[0]));
        return;
      }
    }
    if (!store.get(ArchiveFolder.DATABASE, database())) {
      Files.deleteIfExists(database());
      requireOnlyOurs();
    }
  }

  private void requireOnlyOurs() throws IOException {
    for (String name : store.below("").keySet()) {
      String first = name.substring(0, Math.max(0, name.indexOf('/')));
      if (!name.equals(LOCK) && !Set.of(ArchiveFolder.PHOTOS, STATE, WORK).contains(first)) {
        throw ArchiveFolder.refused(
            store.place() + ": there is something here that is no archive; choose another place.",
            null);
      }
    }
  }

  @Override
  public Path root() {
    return root;
  }

  @Override
  public String shown() {
    return store.place();
  }

  /**
   * In the same store: seen from the archive, "../trays/die.tif", as beside an archive on a disk.
   * Anything else by its whole place.
   */
  @Override
  public String seen(BatchPhoto photo) {
    URI archive = URI.create(store.place());
    if (photo.stored().isEmpty()
        || !String.valueOf(archive.getScheme()).equals(photo.stored().get().getScheme())
        || !java.util.Objects.equals(archive.getAuthority(), photo.stored().get().getAuthority())) {
      return photo.place();
    }
    return Path.of("/" + archive.getPath())
        .relativize(Path.of("/" + photo.stored().get().getPath()))
        .toString()
        .replace('\\', '/');
  }

  @Override
  public Path work(String name) {
    return root.resolve(WORK).resolve(run).resolve(name);
  }

  @Override
  public Path photo(String name) {
    return root.resolve(ArchiveFolder.PHOTOS).resolve(name);
  }

  @Override
  public void tidy(Set<String> known) throws IOException {
    Map<String, SortedMap<String, Long>> found = new TreeMap<>();
    store
        .below(ArchiveFolder.PHOTOS)
        .forEach(
            (name, bytes) -> {
              int slash = Math.max(0, name.indexOf('/'));
              found
                  .computeIfAbsent(name.substring(0, slash), n -> new TreeMap<>())
                  .put(name.substring(slash + 1), bytes);
            });
    for (var folder : found.entrySet()) {
      if (!folder.getValue().containsKey(Checksums.LIST)) {
        store.remove(stored(folder.getKey()));
      } else if (known.contains(folder.getKey())) {
        complete.add(folder.getKey());
      } else {
        unnoted.put(folder.getKey(), folder.getValue());
      }
    }
  }

  private static String stored(String name) {
    return ArchiveFolder.PHOTOS + "/" + name;
  }

  @Override
  public boolean holds(String name) {
    return complete.contains(name);
  }

  @Override
  public Optional<Filed> unnoted(String name) throws IOException {
    SortedMap<String, Long> bytes = unnoted.remove(name);
    if (bytes == null) {
      return Optional.empty();
    }
    Path fresh = Files.createDirectories(work(name));
    fetch(stored(name), fresh);
    try {
      Filed filed = filed(fresh, bytes);
      complete.add(name);
      return Optional.of(filed);
    } catch (IOException | RuntimeException e) {
      // Damaged: it is surveyed again.
      store.remove(stored(name));
      return Optional.empty();
    } finally {
      DurableFiles.delete(fresh);
    }
  }

  private void fetch(String from, Path folder) throws IOException {
    for (String file : List.of(Checksums.LIST, SurveyFolder.SURVEY)) {
      if (!store.get(from + "/" + file, folder.resolve(file))) {
        throw new IOException(from + "/" + file + " is not there");
      }
    }
  }

  private static Filed filed(Path folder, SortedMap<String, Long> stored) throws IOException {
    SortedMap<String, String> sums = Checksums.sealed(folder);
    Set<String> names = new HashSet<>(stored.keySet());
    names.remove(Checksums.LIST);
    Path survey = folder.resolve(SurveyFolder.SURVEY);
    if (!names.equals(sums.keySet())
        || !Checksums.of(survey).equals(sums.get(SurveyFolder.SURVEY))) {
      throw new IOException("the files are not those of the list");
    }
    Map<String, Long> bytes = new HashMap<>(stored);
    bytes.remove(Checksums.LIST);
    return new Filed(SurveyJson.read(survey), bytes, sums);
  }

  @Override
  public Filed keep(Path work, String name) throws IOException {
    String attempt = Files.readString(work.resolve(ATTEMPT), StandardCharsets.UTF_8);
    fetch(attempt, work);
    if (!store.below(stored(name)).isEmpty()) {
      store.remove(stored(name));
    }
    store.move(attempt, stored(name), Checksums.LIST);
    Filed filed = filed(work, store.below(stored(name)));
    complete.add(name);
    DurableFiles.delete(work);
    return filed;
  }

  /** A copy of the database goes to the store once in a while, by whoever comes first. */
  @Override
  public void noted(ArchiveDatabase database) throws IOException {
    if (System.nanoTime() - nextCopy < 0 || !copying.tryLock()) {
      return;
    }
    Path copy = root.resolve("copy.sqlite");
    try {
      long start = System.nanoTime();
      Files.deleteIfExists(copy);
      database.snapshot(copy);
      putDatabase(copy);
      long took = System.nanoTime() - start;
      long pause = betweenCopies.toNanos();
      nextCopy =
          System.nanoTime() + (pause == 0 ? 0 : Math.max(pause, TIMES_AS_LONG_AS_A_COPY * took));
    } finally {
      Files.deleteIfExists(copy);
      copying.unlock();
    }
  }

  /** The newest copy under a name of its own is the last thing to go. */
  private String putDatabase(Path file) throws IOException {
    if (!text(store, root, LOCK).equals(Optional.of(lock))) {
      throw ArchiveFolder.refused(
          store.place() + ": another run has taken this archive over; this one ends.", null);
    }
    SortedMap<String, Long> before = store.below(STATE);
    String name =
        String.format(
            java.util.Locale.ROOT, "%s/%012d-%s.sqlite", STATE, ++copies, Checksums.of(file));
    store.put(file, name);
    store.put(file, ArchiveFolder.DATABASE);
    for (String old : before.keySet()) {
      store.remove(STATE + "/" + old);
    }
    return name;
  }

  @Override
  public void finish(Instant created, boolean whole) throws IOException {
    if (whole) {
      for (String name : unnoted.keySet()) {
        store.remove(stored(name));
      }
    }
    for (String name : BatchPages.onSheet(root)) {
      Path folder = Files.createDirectories(photo(name));
      store.get(stored(name) + "/" + Thumbnails.FILE, folder.resolve(Thumbnails.FILE));
    }
    ArchivePages.write(root, created);
    String copy = putDatabase(database());
    for (String page : ArchivePages.names()) {
      store.put(root.resolve(page), page);
    }
    store.put(root.resolve(Checksums.LIST), Checksums.LIST);
    store.remove(copy);
  }

  @Override
  public void close() {
    try {
      try {
        if (text(store, root, LOCK).equals(Optional.of(lock))) {
          store.remove(WORK);
          store.remove(LOCK);
        }
      } finally {
        DurableFiles.delete(root);
      }
    } catch (IOException e) {
      throw unwritable(store, e);
    }
  }
}
