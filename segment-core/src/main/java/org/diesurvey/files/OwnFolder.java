package org.diesurvey.files;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Stream;

/**
 * A folder that carries our mark: the list of checksums, and a document of ours that is in the list
 * and matches. Of the files in it only those are ours that are in the list and match; a file that
 * was changed since, or was laid beside them, is somebody's.
 *
 * @param folder that carries the mark
 * @param sums the list, by name
 */
public record OwnFolder(Path folder, Map<String, String> sums) {
  /** Copies the list. */
  public OwnFolder {
    sums = Map.copyOf(sums);
  }

  /** The folder, if it carries the mark of one of these kinds. */
  public static Optional<OwnFolder> of(Path folder, ResultKind... kinds) {
    Path list = folder.resolve(Checksums.LIST);
    if (!Disk.isFolder(folder) || !Disk.isFile(list)) {
      return Optional.empty();
    }
    try {
      OwnFolder own = new OwnFolder(folder, Checksums.sealed(folder));
      for (ResultKind kind : kinds) {
        for (String document : kind.documents()) {
          if (own.owns(document) && kind.says(folder.resolve(document))) {
            return Optional.of(own);
          }
        }
      }
      return Optional.empty();
    } catch (IOException e) {
      return Optional.empty();
    }
  }

  /** The list alone, where the document is gone already; nothing is ours if there is none. */
  static OwnFolder byList(Path folder) {
    try {
      return new OwnFolder(folder, Checksums.sealed(folder));
    } catch (IOException e) {
      return new OwnFolder(folder, Map.of());
    }
  }

  /** Whether the file of this name, with slashes, is as we wrote it. */
  public boolean owns(String name) {
    Path file = folder.resolve(name);
    try {
      return sums.containsKey(name)
          && !throughLink(name)
          && Disk.isFile(file)
          && Checksums.of(file).equals(sums.get(name));
    } catch (IOException e) {
      return false;
    }
  }

  /** Whether the files of the list are all there and as we wrote them. */
  public boolean whole() {
    return sums.keySet().stream().allMatch(this::owns);
  }

  /** Files of the list that are there but no longer as we wrote them, in their order. */
  List<String> changed() {
    return sums.keySet().stream()
        .filter(name -> Disk.there(folder.resolve(name)) && !owns(name))
        .sorted()
        .toList();
  }

  private boolean throughLink(String name) {
    Path at = folder;
    for (Path part : Path.of(name)) {
      at = at.resolve(part);
      if (part.toString().equals("..") || Files.isSymbolicLink(at)) {
        return true;
      }
    }
    return false;
  }

  /** Removes what is ours, the list last, and folders that are empty then. */
  void remove() throws IOException {
    for (String name : new TreeMap<>(sums).keySet()) {
      if (owns(name)) {
        Disk.remove(folder.resolve(name));
      }
    }
    Path list = folder.resolve(Checksums.LIST);
    if (Disk.isFile(list) && !sums.isEmpty()) {
      Disk.remove(list);
    }
    removeEmpty(folder);
  }

  static void removeEmpty(Path folder) throws IOException {
    if (!Disk.isFolder(folder)) {
      return;
    }
    List<Path> folders;
    try (Stream<Path> all = Files.walk(folder)) {
      folders = all.filter(Disk::isFolder).sorted(Comparator.reverseOrder()).toList();
    }
    for (Path f : folders) {
      Disk.removeIfEmpty(f);
    }
  }

  /** Moves what is not ours to another folder, where nothing has its name there. */
  void handOver(Path to) throws IOException {
    handOver("", to);
  }

  private void handOver(String below, Path to) throws IOException {
    List<Path> inside;
    try (Stream<Path> all = Files.list(folder.resolve(below))) {
      inside = new ArrayList<>(all.sorted().toList());
    }
    for (Path p : inside) {
      String name = below + p.getFileName();
      Path target = to.resolve(name);
      if (Disk.isFolder(p)) {
        if (Disk.there(target) || holdsOurs(name + "/")) {
          handOver(name + "/", to);
        } else {
          Disk.folders(target.getParent());
          Disk.move(p, target);
        }
      } else if (!name.equals(Checksums.LIST) && !owns(name) && !Disk.there(target)) {
        Disk.folders(target.getParent());
        Disk.move(p, target);
      }
    }
  }

  private boolean holdsOurs(String below) {
    return sums.keySet().stream().anyMatch(name -> name.startsWith(below));
  }
}
