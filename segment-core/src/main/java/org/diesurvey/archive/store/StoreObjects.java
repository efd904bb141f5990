package org.diesurvey.archive.store;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.UUID;
import org.diesurvey.files.Checksums;
import org.diesurvey.files.Disk;
import org.diesurvey.files.ResultKind;

/** What may be replaced and removed in a store: what carries our mark, as on a disk. */
final class StoreObjects {
  /** Lists of surveys that are on their way to their place. */
  private static final String MOVING = ".moving";

  private static final String ENDING = ".sha256";

  private final ArchiveStore store;
  private final Path temporary;

  /**
   * @param temporary folder of this computer for objects that are looked at
   */
  StoreObjects(ArchiveStore store, Path temporary) {
    this.store = store;
    this.temporary = temporary;
  }

  private Path file() {
    return temporary.resolve("object-" + UUID.randomUUID());
  }

  /** Puts a text, in place of an object that is ours. */
  void put(String name, String text) throws IOException {
    Path file = file();
    Disk.write(file, text.getBytes(StandardCharsets.UTF_8));
    try {
      store.put(file, name);
    } finally {
      Disk.removeMade(file);
    }
  }

  /** SHA-256 of an object; empty if there is none. */
  Optional<String> sum(String name) throws IOException {
    Path file = file();
    try {
      return store.get(name, file) ? Optional.of(Checksums.of(file)) : Optional.empty();
    } finally {
      Disk.removeMade(file);
    }
  }

  private SortedMap<String, String> list(String name) throws IOException {
    Path folder = Disk.folder(file());
    try {
      return store.get(name, folder.resolve(Checksums.LIST))
          ? Checksums.sealed(folder)
          : new TreeMap<>();
    } catch (IOException e) {
      return new TreeMap<>();
    } finally {
      Disk.removeMade(folder);
    }
  }

  /** An object below a folder that has the name of one of ours and is not; empty if none has. */
  Optional<String> foreign(String folder, Set<String> names) throws IOException {
    Set<String> there = new TreeSet<>(store.below(folder).keySet());
    there.retainAll(names);
    if (there.isEmpty()) {
      return Optional.empty();
    }
    SortedMap<String, String> sums = list(folder + "/" + Checksums.LIST);
    for (String name : there) {
      boolean ours =
          name.equals(Checksums.LIST)
              ? !sums.isEmpty()
              : sum(folder + "/" + name).filter(s -> s.equals(sums.get(name))).isPresent();
      if (!ours) {
        return Optional.of(folder + "/" + name);
      }
    }
    return Optional.empty();
  }

  /**
   * Moves a complete attempt to its place, where nothing foreign has the names of its files. Its
   * list goes ahead, so that the next run knows what a run that is ended has moved.
   */
  void move(String attempt, String to, Path list) throws IOException {
    SortedMap<String, String> before = list(to + "/" + Checksums.LIST);
    Set<String> moved = store.below(attempt).keySet();
    String ahead = MOVING + "/" + to.substring(to.lastIndexOf('/') + 1) + ENDING;
    store.put(list, ahead);
    store.move(attempt, to, Checksums.LIST);
    for (String name : before.keySet()) {
      if (!moved.contains(name)) {
        removeIfOurs(to + "/" + name, before.get(name));
      }
    }
    store.remove(ahead);
  }

  private void removeIfOurs(String object, String sum) throws IOException {
    if (sum(object).filter(sum::equals).isPresent()) {
      store.remove(object);
    }
  }

  /** Removes what an ended run had moved of surveys that did not come to their place whole. */
  void settle() throws IOException {
    for (String name : Set.copyOf(store.below(MOVING).keySet())) {
      if (!name.endsWith(ENDING) || name.contains("/")) {
        continue;
      }
      String to = ArchiveFolder.PHOTOS + "/" + name.substring(0, name.length() - ENDING.length());
      SortedMap<String, String> sums = list(MOVING + "/" + name);
      if (!sums.isEmpty() && !sums.equals(list(to + "/" + Checksums.LIST))) {
        for (var object : sums.entrySet()) {
          removeIfOurs(to + "/" + object.getKey(), object.getValue());
        }
      }
      store.remove(MOVING + "/" + name);
    }
  }

  /** Removes objects with the names of our results below a folder of work in progress. */
  void removeBegun(String folder) throws IOException {
    Set<String> names = ResultKind.SURVEY.names();
    for (String object : Set.copyOf(store.below(folder).keySet())) {
      if (names.contains(object.substring(object.lastIndexOf('/') + 1))) {
        store.remove(folder + "/" + object);
      }
    }
  }
}
