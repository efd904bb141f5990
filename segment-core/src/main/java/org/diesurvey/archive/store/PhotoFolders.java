package org.diesurvey.archive.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.diesurvey.files.Checksums;
import org.diesurvey.files.Disk;
import org.diesurvey.files.OwnFolder;
import org.diesurvey.files.ResultKind;
import org.diesurvey.report.SurveyFolder;
import org.diesurvey.survey.SurveyDocument;
import org.diesurvey.survey.json.SurveyJson;

/**
 * Folders of surveys on a disk.
 *
 * @param photos folder that holds them
 */
public record PhotoFolders(Path photos) implements DatabaseRebuild.Folders {
  @Override
  public Set<String> names() throws IOException {
    Set<String> names = new TreeSet<>();
    if (Disk.isFolder(photos)) {
      try (Stream<Path> inside = Files.list(photos)) {
        inside.filter(Disk::isFolder).forEach(p -> names.add(p.getFileName().toString()));
      }
    }
    return names;
  }

  @Override
  public List<ArchivePlace.Complete> unknown(Set<String> known) throws IOException {
    List<ArchivePlace.Complete> found = new ArrayList<>();
    for (String name : names()) {
      Path folder = photos.resolve(name);
      if (!known.contains(name) && OwnFolder.of(folder, ResultKind.SURVEY).isPresent()) {
        found.add(new ArchivePlace.Complete(name, note(folder, name), () -> filed(folder)));
      }
    }
    return found;
  }

  /** What lies in a folder of its photograph; empty where it is not of this folder. */
  static Optional<ArchivedPhotograph> note(Path folder, String name) {
    try {
      return Optional.of(ArchivedPhotograph.read(folder.resolve(ArchivedPhotograph.FILE)))
          .filter(note -> note.isOf(name));
    } catch (IOException e) {
      return Optional.empty();
    }
  }

  static ArchivePlace.Filed filed(Path folder) throws IOException {
    SortedMap<String, String> sums = Checksums.sealed(folder);
    Map<String, Long> bytes = new HashMap<>();
    for (String file : sums.keySet()) {
      Path p = folder.resolve(file);
      bytes.put(file, Disk.isFile(p) ? Files.size(p) : 0);
    }
    SurveyDocument document = SurveyJson.readDocument(folder.resolve(SurveyFolder.SURVEY));
    return new ArchivePlace.Filed(document.survey(), document.created(), bytes, sums);
  }
}
