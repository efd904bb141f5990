package org.diesurvey.archive.run;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import org.diesurvey.archive.store.ArchiveStore;

/**
 * A store of objects as the big ones are: put, get, list and remove of single objects. May cease to
 * answer after some number of changes, as seen by a process that is killed then.
 */
final class StoreInMemory implements ArchiveStore {
  final SortedMap<String, byte[]> objects;
  private int changesLeft;

  StoreInMemory(SortedMap<String, byte[]> objects, int changes) {
    this.objects = objects;
    this.changesLeft = changes;
  }

  int changesLeft() {
    return changesLeft;
  }

  private void change() {
    if (changesLeft == 0) {
      throw new IllegalStateException("this process was killed");
    }
    changesLeft--;
  }

  private void alive() {
    if (changesLeft == 0) {
      throw new IllegalStateException("this process was killed");
    }
  }

  @Override
  public String place() {
    return "store://lab/archive";
  }

  @Override
  public synchronized boolean make(String name, String text) {
    alive();
    if (objects.containsKey(name)) {
      return false;
    }
    change();
    objects.put(name, text.getBytes(StandardCharsets.UTF_8));
    return true;
  }

  @Override
  public synchronized void put(Path file, String name) throws IOException {
    change();
    objects.put(name, Files.readAllBytes(file));
  }

  @Override
  public synchronized boolean get(String name, Path file) throws IOException {
    alive();
    if (objects.containsKey(name)) {
      Files.write(file, objects.get(name));
      return true;
    }
    return false;
  }

  @Override
  public synchronized SortedMap<String, Long> below(String folder) {
    alive();
    String prefix = folder.isEmpty() ? "" : folder + "/";
    SortedMap<String, Long> found = new TreeMap<>();
    objects.forEach(
        (name, bytes) -> {
          if (name.startsWith(prefix)) {
            found.put(name.substring(prefix.length()), (long) bytes.length);
          }
        });
    return found;
  }

  @Override
  public synchronized void move(String from, String to, String last) {
    List<String> names = new ArrayList<>(below(from).keySet());
    names.remove(last);
    names.add(last);
    for (String name : names) {
      change();
      objects.put(to + "/" + name, objects.get(from + "/" + name));
    }
    remove(from);
  }

  @Override
  public synchronized void remove(String name) {
    for (String below : List.copyOf(objects.keySet())) {
      if (below.equals(name) || below.startsWith(name + "/")) {
        change();
        objects.remove(below);
      }
    }
  }

  /** All objects as files, as somebody copies them to a disk. */
  void copyTo(Path folder) throws IOException {
    for (var object : objects.entrySet()) {
      Path file = folder.resolve(object.getKey());
      Files.createDirectories(file.getParent());
      Files.write(file, object.getValue());
    }
  }
}
