package org.diesurvey.archive.store;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;

/** Files in an archive that are made from its database: pages, tables and what describes them. */
public interface DerivedFiles {
  /** Names of the files, with slashes, without the list of their checksums. */
  List<String> names();

  /**
   * Files of surveys that they are made from besides the database, seen from the archive.
   *
   * @param root folder that holds the database
   */
  List<String> sources(Path root);

  /**
   * Writes the files into another folder.
   *
   * @param root folder that holds the database and the surveys
   * @param folder where the files go
   * @param created moment to note
   */
  void make(Path root, Path folder, Instant created) throws IOException;
}
