package org.diesurvey.archive;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import org.diesurvey.survey.Survey;

/** Where the files of an archive go, held by one run at a time. */
interface ArchivePlace extends AutoCloseable {
  /**
   * A survey that lies complete in the archive.
   *
   * @param survey its document
   * @param bytes sizes of its files, by name
   * @param sums their SHA-256
   */
  record Filed(Survey survey, Map<String, Long> bytes, SortedMap<String, String> sums) {}

  /** Folder of this computer that holds the database and the pages. */
  Path root();

  /** The archive as people know it, for messages. */
  String shown();

  /** The database, on this computer. */
  default Path database() {
    return root().resolve(ArchiveFolder.DATABASE);
  }

  /** A photograph's place seen from the archive. */
  String seen(BatchPhoto photo);

  /** Where a survey is made before it is complete. */
  Path work(String name);

  /** Where a complete survey lies. */
  Path photo(String name);

  /** Makes order after a run that was stopped, given the surveys that have rows. */
  void tidy(Set<String> known) throws IOException;

  /** Whether the complete survey of this name lies here. */
  boolean holds(String name);

  /** A complete survey that an earlier run could not note any more. */
  default Optional<Filed> unnoted(String name) throws IOException {
    return Optional.empty();
  }

  /** Puts a complete survey to its place; rows may speak of it thereafter. */
  Filed keep(Path work, String name) throws IOException;

  /** Called after rows were written. */
  default void noted(ArchiveDatabase database) throws IOException {}

  /**
   * Writes what is made from the database, which is closed by now.
   *
   * @param created moment to note
   * @param whole whether every photograph of the run was looked at
   */
  void finish(Instant created, boolean whole) throws IOException;

  @Override
  void close();
}
