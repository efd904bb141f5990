package org.diesurvey.archive.store;

import java.io.IOException;
import java.nio.file.Path;
import java.util.SortedMap;

/**
 * Objects of an archive in a store that is no disk of this computer. Names are seen from the
 * archive, with slashes. An object appears whole or not at all; nothing more is asked of the store:
 * no renaming, no appending, no folders. Safe for several threads.
 */
public interface ArchiveStore {
  /** The archive's URI, without a slash at its end. */
  String place();

  /**
   * Makes an object that is not there yet.
   *
   * @return false if it is
   */
  boolean make(String name, String text) throws IOException;

  /** Puts a file into the store, in place of an object of that name. */
  void put(Path file, String name) throws IOException;

  /**
   * Takes a file out of the store.
   *
   * @return false if there is no such object
   */
  boolean get(String name, Path file) throws IOException;

  /** All objects below a folder with their bytes; names are seen from that folder. */
  SortedMap<String, Long> below(String folder) throws IOException;

  /** Moves all objects of a folder to another, the one named last after all others. */
  void move(String from, String to, String last) throws IOException;

  /** Removes an object, or all below a folder; nothing happens if there is none. */
  void remove(String name) throws IOException;
}
