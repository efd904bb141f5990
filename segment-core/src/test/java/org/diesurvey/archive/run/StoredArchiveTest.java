package org.diesurvey.archive.run;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.diesurvey.DieInputException;
import org.diesurvey.archive.BatchListener;
import org.diesurvey.archive.BatchOutcome;
import org.diesurvey.archive.BatchPhoto;
import org.diesurvey.archive.BatchProgress;
import org.diesurvey.archive.PhotoLabels;
import org.diesurvey.archive.PhotoSurveyor;
import org.diesurvey.archive.pages.ArchivePages;
import org.diesurvey.archive.store.ArchiveFolder;
import org.diesurvey.archive.store.ArchiveMarker;
import org.diesurvey.archive.store.StoredArchive;
import org.diesurvey.files.Checksums;
import org.diesurvey.files.Disk;
import org.diesurvey.pipeline.ScaleInput;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Archives in a store that knows no renaming, with runs that end at every possible moment. */
class StoredArchiveTest {
  private static final int GOOD = 2;
  private static final int ENDLESS = 1_000_000;

  @TempDir private Path folder;
  private Path sample;
  private List<BatchPhoto> photos;
  private int surveyed;

  @BeforeEach
  void draw() throws IOException {
    sample = SampleArchive.survey(folder);
    photos = SampleArchive.photos(folder.resolve("photos"), GOOD + 1);
    Files.writeString(photos.get(GOOD).file(), "bad");
  }

  @Test
  void runKilledAfterAnyChange_nextRunMakesTheSameArchive() throws Exception {
    StoreInMemory whole = new StoreInMemory(new TreeMap<>(), ENDLESS);
    run(whole, false);
    int changes = ENDLESS - whole.changesLeft();
    assertTrue(changes > 40, "changes of an undisturbed run: " + changes);
    assertEquals(GOOD + 1, surveyed);
    for (int kill = 1; kill < changes; kill++) {
      StoreInMemory killed = new StoreInMemory(new TreeMap<>(), kill);
      assertThrows(RuntimeException.class, () -> run(killed, false));
      String where = "killed after change " + kill + " of " + changes;
      long kept = lists(killed.objects.keySet());
      StoreInMemory next = new StoreInMemory(killed.objects, ENDLESS);
      if (killed.objects.containsKey(".lock")) {
        DieInputException held = assertThrows(DieInputException.class, () -> run(next, false));
        assertTrue(held.getMessage().contains("--take-over"), held.getMessage());
      }
      surveyed = 0;
      run(next, true);
      // The rejected one is asked for again only where no copy of the database had it yet.
      long again = GOOD - kept;
      assertTrue(surveyed >= again && surveyed <= again + 1, where + ", surveyed " + surveyed);
      assertEquals(whole.objects.keySet(), next.objects.keySet(), where);
      for (String name : whole.objects.keySet()) {
        if (!name.equals(ArchiveFolder.DATABASE)) {
          assertArrayEquals(whole.objects.get(name), next.objects.get(name), where + " " + name);
        }
      }
    }
  }

  @Test
  void copiedToADisk_isAnArchiveLikeAnyOther() throws Exception {
    StoreInMemory store = new StoreInMemory(new TreeMap<>(), ENDLESS);
    store.objects.put(ArchiveMarker.FILE, ArchiveMarker.TEXT.getBytes(StandardCharsets.UTF_8));
    store.objects.put(".work/gone/die-000.1/survey.json", new byte[1]);
    run(store, false);
    Path copy = folder.resolve("copy");
    store.copyTo(copy);
    assertEquals(List.of(), ArchiveCheck.of(copy).findings());
    assertEquals(GOOD, ArchiveCheck.of(copy).surveys());
    Set<String> tops =
        store.objects.keySet().stream()
            .map(name -> name.replaceAll("/.*", ""))
            .collect(Collectors.toCollection(TreeSet::new));
    Path here = folder.resolve("here");
    try (PhotoSurveyor surveyor = new CopyingSurveyor(sample, 0, "1")) {
      new BatchRun(here, surveyor, 1, 1L << 30, SampleArchive.MOMENT)
          .run(photos, BatchListener.SILENT);
    }
    try (Stream<Path> inside = Files.list(here)) {
      tops.add(".lock");
      assertEquals(inside.map(p -> p.getFileName().toString()).collect(Collectors.toSet()), tops);
    }
    for (String name : store.objects.keySet()) {
      // The notes of photographs hold where each lies, seen from the archive.
      if (name.startsWith("photos/") && !name.matches(".*/(photograph.json|checksums.sha256)")) {
        assertArrayEquals(Files.readAllBytes(here.resolve(name)), store.objects.get(name), name);
      }
    }
    surveyed = 0;
    BatchProgress again = run(store, false);
    assertEquals(GOOD, again.unchanged());
    assertEquals(0, surveyed);
  }

  @Test
  void runThatLostItsHold_putsNoDatabase() throws Exception {
    StoreInMemory store = new StoreInMemory(new TreeMap<>(), ENDLESS);
    run(store, false);
    byte[] before = store.objects.get(ArchiveFolder.DATABASE);
    Files.writeString(photos.get(0).file(), "another photograph");
    BatchRun run = batch(store, false, Duration.ofDays(1));
    DieInputException e =
        assertThrows(
            DieInputException.class,
            () ->
                run.run(
                    photos,
                    new BatchListener() {
                      @Override
                      public void done(BatchOutcome outcome, BatchProgress progress) {
                        store.objects.put(".lock", "another".getBytes(StandardCharsets.UTF_8));
                      }
                    }));
    assertTrue(e.getMessage().contains("taken this archive over"), e.getMessage());
    assertArrayEquals(before, store.objects.get(ArchiveFolder.DATABASE));
    assertTrue(store.objects.containsKey(".lock"), "the hold of the other run stays");
  }

  @Test
  void placeThatHoldsSomethingElse_isRefused() {
    StoreInMemory store = new StoreInMemory(new TreeMap<>(), ENDLESS);
    store.objects.put("letters/1.txt", new byte[3]);
    assertThrows(DieInputException.class, () -> run(store, false));
    assertEquals(Set.of("letters/1.txt"), store.objects.keySet());
    for (String name : List.of("photos/die.png", ".work/a/survey.json", ".state/mine.sqlite")) {
      StoreInMemory other = new StoreInMemory(new TreeMap<>(), ENDLESS);
      other.objects.put(name, new byte[3]);
      assertThrows(DieInputException.class, () -> run(other, false), name);
      assertEquals(Set.of(name), other.objects.keySet());
    }
  }

  @Test
  void whatIsNotOurs_staysAndIsNeverOverwritten() throws Exception {
    StoreInMemory store = new StoreInMemory(new TreeMap<>(), ENDLESS);
    run(store, false);
    String folder = "photos/" + folders(store).get(0);
    List<String> mine =
        List.of(
            "NOTES.txt",
            "photos/NOTES.txt",
            "photos/mine/survey.json",
            folder + "/die.corrected.geojson",
            ".work/letter.txt",
            ".state/letter.txt");
    for (String name : mine) {
      store.objects.put(name, "mine".getBytes(StandardCharsets.UTF_8));
    }
    store.objects.remove(folder + "/checksums.sha256");
    byte[] survey = store.objects.get(folder + "/survey.json");
    BatchProgress p = batch(store, false, Duration.ZERO).run(photos, BatchListener.SILENT);
    assertEquals(GOOD - 1, p.unchanged());
    assertEquals(1, p.failed(), "without its list nothing in the folder is known as ours");
    for (String name : mine) {
      assertEquals("mine", new String(store.objects.get(name), StandardCharsets.UTF_8), name);
    }
    assertArrayEquals(survey, store.objects.get(folder + "/survey.json"));
    store.objects.put("index.html", "mine".getBytes(StandardCharsets.UTF_8));
    DieInputException e =
        assertThrows(
            DieInputException.class,
            () -> batch(store, false, Duration.ZERO).run(photos, BatchListener.SILENT));
    assertTrue(e.getMessage().contains("index.html"), e.getMessage());
    assertEquals("mine", new String(store.objects.get("index.html"), StandardCharsets.UTF_8));
  }

  @Test
  void storeWithoutItsDatabase_isRebuiltFromItsFolders() throws Exception {
    StoreInMemory store = new StoreInMemory(new TreeMap<>(), ENDLESS);
    run(store, false);
    for (byte[] database :
        new byte[][] {null, new byte[0], "a letter".getBytes(StandardCharsets.UTF_8)}) {
      store.objects.remove(ArchiveFolder.DATABASE);
      if (database != null) {
        store.objects.put(ArchiveFolder.DATABASE, database);
      }
      List<String> said = new ArrayList<>();
      surveyed = 0;
      batch(store, false, Duration.ZERO)
          .run(
              photos.subList(0, 1),
              new BatchListener() {
                @Override
                public void said(String sentence) {
                  said.add(sentence);
                }

                @Override
                public void done(BatchOutcome outcome, BatchProgress progress) {}
              });
      assertEquals(0, surveyed);
      assertTrue(said.toString().contains("rebuilt from " + GOOD), said.toString());
      Path copy = folder.resolve("copy");
      Disk.removeMade(copy);
      store.copyTo(copy);
      assertEquals(GOOD, ArchiveCheck.of(copy).surveys());
    }
    assertTrue(
        store.objects.values().stream()
            .anyMatch(o -> new String(o, StandardCharsets.UTF_8).equals("a letter")),
        "the letter is gone");
  }

  private static List<String> folders(StoreInMemory store) {
    return store.objects.keySet().stream()
        .filter(n -> n.matches("photos/[^/]+/" + Checksums.LIST))
        .map(n -> n.split("/")[1])
        .toList();
  }

  @Test
  void photographInTheSameStore_isSeenFromTheArchive() {
    StoreInMemory store = new StoreInMemory(new TreeMap<>(), ENDLESS);
    try (StoredArchive archive =
        StoredArchive.open(
            store, folder.resolve("s"), false, Duration.ofDays(1), ArchivePages.ALL)) {
      assertEquals("../trays/die 1.tif", archive.seen(stored("store://lab/trays/die%201.tif")));
      assertEquals("other://lab/a.tif", archive.seen(stored("other://lab/a.tif")));
      assertEquals("store://attic/a.tif", archive.seen(stored("store://attic/a.tif")));
    }
    assertEquals(Set.of(ArchiveMarker.FILE), store.objects.keySet());
  }

  private static BatchPhoto stored(String uri) {
    return BatchPhoto.stored(
        URI.create(uri), ScaleInput.NONE, OptionalDouble.empty(), PhotoLabels.NONE);
  }

  private static long lists(Set<String> names) {
    return names.stream().filter(n -> n.matches("photos/[^/]+/" + Checksums.LIST)).count();
  }

  private BatchProgress run(StoreInMemory store, boolean takeOver) throws IOException {
    BatchProgress reached = batch(store, takeOver, Duration.ZERO).run(photos, BatchListener.SILENT);
    assertFalse(store.objects.keySet().stream().anyMatch(n -> n.startsWith(".")), "nothing hidden");
    return reached;
  }

  private BatchRun batch(StoreInMemory store, boolean takeOver, Duration betweenCopies)
      throws IOException {
    return new BatchRun(
        () ->
            StoredArchive.open(
                store, folder.resolve("staging"), takeOver, betweenCopies, ArchivePages.ALL),
        new Elsewhere(store, new CopyingSurveyor(sample, 0, "1")),
        1,
        Long.MAX_VALUE,
        SampleArchive.MOMENT);
  }

  /** Surveys twice, as a cluster may, and names the second attempt. */
  private final class Elsewhere implements PhotoSurveyor {
    private final StoreInMemory store;
    private final CopyingSurveyor copies;

    Elsewhere(StoreInMemory store, CopyingSurveyor copies) {
      this.store = store;
      this.copies = copies;
    }

    @Override
    public void survey(BatchPhoto photo, Path work, Instant created, int threads) {
      surveyed++;
      String attempt = "";
      try {
        for (int i = 1; i <= 2; i++) {
          attempt = StoredArchive.WORK + "/run/" + work.getFileName() + "." + i;
          Path made = folder.resolve("executor");
          Disk.removeMade(made);
          copies.survey(photo, made, created, threads);
          Checksums.seal(made);
          try (Stream<Path> files = Files.list(made)) {
            for (Path file : files.sorted().toList()) {
              store.put(file, attempt + "/" + file.getFileName());
            }
          }
        }
        Files.createDirectories(work);
        Files.writeString(work.resolve(StoredArchive.ATTEMPT), attempt);
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }

    @Override
    public SortedMap<String, String> identity() {
      return copies.identity();
    }

    @Override
    public void close() {}
  }
}
