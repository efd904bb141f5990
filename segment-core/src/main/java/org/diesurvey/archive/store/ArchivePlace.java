package org.diesurvey.archive.store;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import org.diesurvey.DieInputException;
import org.diesurvey.archive.BatchPhoto;
import org.diesurvey.survey.Survey;

/** Where the files of an archive go, held by one run at a time. */
public interface ArchivePlace extends DatabaseRebuild.Folders, AutoCloseable {
  /**
   * A survey that lies complete in the archive.
   *
   * @param survey its document
   * @param created moment that the document states
   * @param bytes sizes of its files, by name
   * @param sums their SHA-256
   */
  record Filed(
      Survey survey,
      Optional<Instant> created,
      Map<String, Long> bytes,
      SortedMap<String, String> sums) {}

  /**
   * The folder of a complete survey.
   *
   * @param name of the folder
   * @param note what lies in it of the photograph; empty in older archives
   * @param read reads the survey
   */
  record Complete(String name, Optional<ArchivedPhotograph> note, Reading read) {}

  /** Work that reads a survey. */
  interface Reading {
    Filed filed() throws IOException;
  }

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

  /** Whether the complete survey of this name lies here. */
  boolean holds(String name);

  /** Why a survey of this name cannot be put to its place: something there is not ours. */
  Optional<DieInputException> refusal(String name);

  /**
   * Puts a complete survey to its place; rows may speak of it thereafter.
   *
   * @param note goes into its folder
   */
  Filed keep(Path work, String name, ArchivedPhotograph note) throws IOException;

  /** Moves a database that is not ours, or damaged, out of the way, with what lies beside it. */
  void setAsideDatabase() throws IOException;

  /** Called after rows were written. */
  default void noted(ArchiveDatabase database) throws IOException {}

  /**
   * Writes what is made from the database, which is closed by now.
   *
   * @param derived writes them
   * @param created moment to note
   */
  void finish(DerivedFiles derived, Instant created) throws IOException;

  @Override
  void close();
}
