package org.diesurvey.archive.store;

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
import java.util.TreeSet;
import java.util.UUID;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.locks.ReentrantLock;
import org.diesurvey.DieInputException;
import org.diesurvey.archive.BatchPhoto;
import org.diesurvey.files.Checksums;
import org.diesurvey.files.Disk;
import org.diesurvey.files.ResultKind;
import org.diesurvey.report.SurveyFolder;
import org.diesurvey.survey.SurveyDocument;
import org.diesurvey.survey.json.SurveyJson;

/**
 * An archive in a store. Each attempt at a survey lies below .work under a name of its own; the run
 * moves the one that counts to photos/NAME, the list of checksums last, and only then writes rows.
 * The database is on this computer. It goes to the store under new names, the SHA-256 in each, so
 * that a run that is stopped always leaves a whole one. A complete survey whose rows were lost with
 * the run is noted by the next, not done again. Objects that are not ours stay as they are.
 */
public final class StoredArchive implements ArchivePlace {
  /** In the working folder of a survey: the folder of the store that holds its files. */
  public static final String ATTEMPT = "attempt.txt";

  /** Below it lie the attempts of runs. */
  public static final String WORK = ".work";

  private static final String LOCK = ".lock";
  private static final String STATE = ".state";
  private static final String STATE_NAME = "[0-9]{12}-[0-9a-f]{64}[.]sqlite";

  /** Between copies of the database, at least. */
  public static final Duration BETWEEN_COPIES = Duration.ofMinutes(1);

  private static final int TIMES_AS_LONG_AS_A_COPY = 20;

  private final ArchiveStore store;
  private final StoreObjects files;
  private final Path root;
  private final String lock;
  private final String run = UUID.randomUUID().toString();
  private final Set<String> complete = ConcurrentHashMap.newKeySet();
  private final ReentrantLock copying = new ReentrantLock();
  private final Duration betweenCopies;
  private long copies;
  private boolean begun;
  private volatile long nextCopy;

  private StoredArchive(ArchiveStore store, Path root, String lock, Duration betweenCopies) {
    this.store = store;
    this.files = new StoreObjects(store, root);
    this.root = root;
    this.lock = lock;
    this.betweenCopies = betweenCopies;
    nextCopy = System.nanoTime() + betweenCopies.toNanos();
  }

  /**
   * Opens an archive for writing; makes it if there is nothing.
   *
   * @param betweenCopies of the database, at least; zero for one after every survey
   * @param derived what the run will make from the database
   * @throws DieInputException OUTPUT_NOT_WRITABLE if it cannot be written, holds something else, or
   *     another run holds it
   */
  public static StoredArchive open(
      ArchiveStore store,
      Path staging,
      boolean takeOver,
      Duration betweenCopies,
      DerivedFiles derived) {
    try {
      Path root = Disk.temporary(staging.toAbsolutePath().normalize(), "diesurvey-archive-");
      String lock;
      try {
        lock = held(store, root, takeOver);
      } catch (IOException | RuntimeException e) {
        Disk.removeMade(root);
        throw e;
      }
      StoredArchive archive = new StoredArchive(store, root, lock, betweenCopies);
      try {
        archive.begin();
        archive.begun = true;
        archive.files.settle();
        archive.files.removeBegun(WORK);
        archive.fetchDatabase();
        archive.requireOwn(derived);
        return archive;
      } catch (IOException | RuntimeException e) {
        archive.close();
        throw e;
      }
    } catch (IOException e) {
      throw unwritable(store, e);
    }
  }

  /** An archive has the marker; a place without it must be empty. */
  private void begin() throws IOException {
    Optional<String> marker = text(store, root, ArchiveMarker.FILE);
    if (marker.filter(ArchiveMarker::tells).isPresent()) {
      return;
    }
    Set<String> there = new HashSet<>(store.below("").keySet());
    there.remove(LOCK);
    if (!there.isEmpty()) {
      throw ArchiveFolder.refused(
          store.place()
              + ": there is something here that is no archive (it has no "
              + ArchiveMarker.FILE
              + "); choose another place, or "
              + ArchiveMarker.ADVICE
              + ".",
          null);
    }
    files.put(ArchiveMarker.FILE, ArchiveMarker.TEXT);
  }

  /** Pages that somebody changed are not replaced. */
  private void requireOwn(DerivedFiles derived) throws IOException {
    Path list = root.resolve("pages.sha256");
    boolean listed = store.get(Checksums.LIST, list);
    for (String page : derived.names()) {
      Optional<String> sum = files.sum(page);
      if (sum.isPresent() && !(listed && Checksums.lists(list, page, sum.get()))) {
        throw ArchiveFolder.refused(
            store.place()
                + "/"
                + page
                + ": this was changed since it was written and will not be overwritten; move it"
                + " away.",
            null);
      }
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
    Path file = root.resolve("object-" + UUID.randomUUID() + ".txt");
    try {
      return store.get(name, file)
          ? Optional.of(Files.readString(file, StandardCharsets.UTF_8))
          : Optional.empty();
    } finally {
      Disk.removeMade(file);
    }
  }

  /** What lies in the place of the database and is none of ours is kept under another name. */
  private void keepForeignDatabase() throws IOException {
    Path file = root.resolve("found.sqlite");
    if (store.get(ArchiveFolder.DATABASE, file)) {
      ArchiveDatabase.State state = ArchiveDatabase.state(file);
      if (state == ArchiveDatabase.State.FOREIGN || state == ArchiveDatabase.State.DAMAGED) {
        setAside(file);
        store.remove(ArchiveFolder.DATABASE);
      }
    }
  }

  private void setAside(Path file) throws IOException {
    int n = 1;
    while (store.get(ArchiveFolder.DATABASE + ".set-aside-" + n, root.resolve("aside"))) {
      n++;
    }
    store.put(file, ArchiveFolder.DATABASE + ".set-aside-" + n);
  }

  @Override
  public void setAsideDatabase() throws IOException {
    setAside(database());
    Disk.move(database(), root.resolve("aside.sqlite"));
  }

  /** The newest copy that is whole; else the database as an undisturbed run left it. */
  private void fetchDatabase() throws IOException {
    keepForeignDatabase();
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
    store.get(ArchiveFolder.DATABASE, database());
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

  private static String stored(String name) {
    return ArchiveFolder.PHOTOS + "/" + name;
  }

  @Override
  public Set<String> names() throws IOException {
    Set<String> names = new TreeSet<>();
    for (String object : store.below(ArchiveFolder.PHOTOS).keySet()) {
      int slash = object.indexOf('/');
      if (slash > 0 && object.substring(slash + 1).equals(Checksums.LIST)) {
        names.add(object.substring(0, slash));
      }
    }
    complete.addAll(names);
    return names;
  }

  @Override
  public List<Complete> unknown(Set<String> known) throws IOException {
    List<Complete> found = new ArrayList<>();
    for (String name : names()) {
      if (known.contains(name)) {
        continue;
      }
      Path fresh = Disk.folders(work(name));
      try {
        fetch(stored(name), fresh);
        store.get(
            stored(name) + "/" + ArchivedPhotograph.FILE, fresh.resolve(ArchivedPhotograph.FILE));
        Filed filed = filed(fresh, store.below(stored(name)));
        found.add(new Complete(name, PhotoFolders.note(fresh, name), () -> filed));
      } catch (IOException | DieInputException e) {
        // Damaged: it is surveyed again, unless what is left of it is somebody's.
        complete.remove(name);
      } finally {
        Disk.removeMade(fresh);
      }
    }
    return found;
  }

  @Override
  public boolean holds(String name) {
    return complete.contains(name);
  }

  @Override
  public Optional<DieInputException> refusal(String name) {
    try {
      return files
          .foreign(stored(name), ResultKind.SURVEY.names())
          .map(
              object ->
                  ArchiveFolder.refused(
                      store.place()
                          + "/"
                          + object
                          + ": this is not as the survey had it and will not be overwritten; move"
                          + " it away.",
                      null));
    } catch (IOException e) {
      throw unwritable(store, e);
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
    Path survey = folder.resolve(SurveyFolder.SURVEY);
    if (!stored.keySet().containsAll(sums.keySet())
        || !Checksums.of(survey).equals(sums.get(SurveyFolder.SURVEY))) {
      throw new IOException("the files are not those of the list");
    }
    Map<String, Long> bytes = new HashMap<>(stored);
    bytes.keySet().retainAll(sums.keySet());
    SurveyDocument document = SurveyJson.readDocument(survey);
    return new Filed(document.survey(), document.created(), bytes, sums);
  }

  @Override
  public Filed keep(Path work, String name, ArchivedPhotograph note) throws IOException {
    String attempt = Files.readString(work.resolve(ATTEMPT), StandardCharsets.UTF_8);
    fetch(attempt, work);
    Checksums.add(work, ArchivedPhotograph.FILE, note.json());
    for (String file : List.of(ArchivedPhotograph.FILE, Checksums.LIST)) {
      store.put(work.resolve(file), attempt + "/" + file);
    }
    files.move(attempt, stored(name), work.resolve(Checksums.LIST));
    Filed filed = filed(work, store.below(stored(name)));
    complete.add(name);
    Disk.removeMade(work);
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
      Disk.removeMade(copy);
      database.snapshot(copy);
      putDatabase(copy);
      long took = System.nanoTime() - start;
      long pause = betweenCopies.toNanos();
      nextCopy =
          System.nanoTime() + (pause == 0 ? 0 : Math.max(pause, TIMES_AS_LONG_AS_A_COPY * took));
    } finally {
      Disk.removeMade(copy);
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
      if (old.matches(STATE_NAME)) {
        store.remove(STATE + "/" + old);
      }
    }
    return name;
  }

  @Override
  public void finish(DerivedFiles derived, Instant created) throws IOException {
    for (String source : derived.sources(root)) {
      Path file = root.resolve(source);
      Disk.folders(file.getParent());
      store.get(source, file);
    }
    Path made = Disk.folder(root.resolve("pages"));
    derived.make(root, made, created);
    SortedMap<String, String> sums = new TreeMap<>();
    for (String page : derived.names()) {
      sums.put(page, Checksums.of(made.resolve(page)));
    }
    String copy = putDatabase(database());
    files.put(Checksums.LIST, Checksums.both(root.resolve("pages.sha256"), sums));
    for (String page : derived.names()) {
      store.put(made.resolve(page), page);
    }
    files.put(Checksums.LIST, Checksums.list(sums));
    store.remove(copy);
  }

  @Override
  public void close() {
    try {
      try {
        if (text(store, root, LOCK).equals(Optional.of(lock))) {
          if (begun) {
            files.removeBegun(WORK);
          }
          store.remove(LOCK);
        }
      } finally {
        Disk.removeMade(root);
      }
    } catch (IOException e) {
      throw unwritable(store, e);
    }
  }
}
