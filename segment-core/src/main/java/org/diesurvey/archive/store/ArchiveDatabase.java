package org.diesurvey.archive.store;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.survey.Survey;
import org.sqlite.SQLiteConfig;
import org.sqlite.SQLiteOpenMode;

/**
 * The database of an archive: SQLite, journal in WAL mode, written through on every commit
 * (synchronous = FULL). One connection; methods are atomic and safe for several threads.
 */
public final class ArchiveDatabase implements AutoCloseable {
  /** Layout of the tables, as schema.sql describes it. */
  static final String LAYOUT = "1";

  /** Of the database and of what SQLite lays beside it. */
  public static final List<String> ENDINGS = List.of("", "-wal", "-shm", "-journal");

  private final Connection connection;
  private final Path file;

  /** A write was refused: the library may have ended the transaction by itself. */
  private boolean broken;

  private ArchiveDatabase(Connection connection, Path file) {
    this.connection = connection;
    this.file = file;
  }

  /** What is known of a file that was given before. */
  public record Known(
      String surveyKey, String outcome, Optional<String> reason, Optional<String> sentence) {}

  /** Opens the database for writing; makes it where there is none. */
  public static ArchiveDatabase open(Path file) {
    SQLiteConfig config = new SQLiteConfig();
    config.setJournalMode(SQLiteConfig.JournalMode.WAL);
    config.setSynchronous(SQLiteConfig.SynchronousMode.FULL);
    config.enforceForeignKeys(true);
    config.setBusyTimeout(10_000);
    try {
      ArchiveDatabase database =
          new ArchiveDatabase(config.createConnection("jdbc:sqlite:" + file), file);
      database.connection.setAutoCommit(false);
      database.prepare();
      return database;
    } catch (SQLException e) {
      throw refused(file, e);
    }
  }

  /**
   * Opens a database for reading only: nothing that is asked of it can change it, or open another.
   *
   * @throws DieInputException FILE_MISSING if there is none
   */
  public static Connection readOnly(Path file) {
    if (!Files.isRegularFile(file)) {
      throw new DieInputException(
          Reason.FILE_MISSING,
          file.getParent() + ": there is no archive here; name the folder given to batch.");
    }
    SQLiteConfig config = new SQLiteConfig();
    config.setReadOnly(true);
    config.resetOpenMode(SQLiteOpenMode.CREATE);
    config.setPragma(SQLiteConfig.Pragma.LIMIT_ATTACHED, "0");
    config.setBusyTimeout(10_000);
    try {
      return config.createConnection("jdbc:sqlite:" + file);
    } catch (SQLException e) {
      throw refused(file, e);
    }
  }

  /** What lies in the place of a database. */
  public enum State {
    MISSING,
    /** No bytes, or no tables. */
    EMPTY,
    OURS,
    /** Ours, but its pages contradict each other. */
    DAMAGED,
    /** No database, or one of another program. */
    FOREIGN
  }

  /** Looks at a file without changing it. */
  static State state(Path file) {
    if (!Files.exists(file)) {
      return State.MISSING;
    }
    if (!Files.isRegularFile(file)) {
      return State.FOREIGN;
    }
    try (Connection connection = readOnly(file);
        Statement s = connection.createStatement()) {
      int tables = number(s, "SELECT count(*) FROM sqlite_master");
      if (number(s, "SELECT count(*) FROM sqlite_master WHERE name = 'archive_info'") == 0) {
        return tables == 0 ? State.EMPTY : State.FOREIGN;
      }
      return sound(s) ? State.OURS : State.DAMAGED;
    } catch (SQLException | DieInputException e) {
      return State.FOREIGN;
    }
  }

  private static int number(Statement s, String sql) throws SQLException {
    try (ResultSet r = s.executeQuery(sql)) {
      return r.next() ? r.getInt(1) : 0;
    }
  }

  private static boolean sound(Statement s) {
    try (ResultSet r = s.executeQuery("PRAGMA quick_check")) {
      return r.next() && r.getString(1).equals("ok");
    } catch (SQLException e) {
      return false;
    }
  }

  /** Folders of all surveys in a database that is not opened for writing. */
  static Set<String> folders(Path file) {
    Set<String> folders = new HashSet<>();
    try (Connection connection = readOnly(file);
        Statement s = connection.createStatement();
        ResultSet r = s.executeQuery("SELECT folder FROM photo")) {
      while (r.next()) {
        folders.add(r.getString(1));
      }
      return folders;
    } catch (SQLException e) {
      return Set.of();
    }
  }

  static String schema() {
    try (var in = ArchiveDatabase.class.getResourceAsStream("schema.sql")) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  private void prepare() throws SQLException {
    try (Statement s = connection.createStatement()) {
      boolean there;
      try (ResultSet r =
          s.executeQuery("SELECT 1 FROM sqlite_master WHERE name = 'archive_info'")) {
        there = r.next();
      }
      if (!there) {
        for (String part : schema().replaceAll("(?m)^--.*$", "").split(";")) {
          if (!part.isBlank()) {
            s.executeUpdate(part);
          }
        }
        s.executeUpdate("INSERT INTO archive_info VALUES ('layout', '" + LAYOUT + "')");
      }
      try (ResultSet r = s.executeQuery("SELECT value FROM archive_info WHERE name = 'layout'")) {
        if (!r.next() || !r.getString(1).equals(LAYOUT)) {
          throw new DieInputException(
              Reason.DOCUMENT_INVALID,
              file
                  + ": this archive has a layout that this program does not know; use the program"
                  + " that made it.");
        }
      }
    }
    connection.commit();
  }

  /** What the database knows of files, by path. */
  public synchronized Map<String, Known> sources() {
    Map<String, Known> known = new HashMap<>();
    try (Statement s = connection.createStatement();
        ResultSet r =
            s.executeQuery("SELECT path, survey_key, outcome, reason, sentence FROM source")) {
      while (r.next()) {
        known.put(
            r.getString(1),
            new Known(
                r.getString(2),
                r.getString(3),
                Optional.ofNullable(r.getString(4)),
                Optional.ofNullable(r.getString(5))));
      }
      connection.commit();
      return known;
    } catch (SQLException e) {
      throw refused(file, e);
    }
  }

  /** Folder of the survey with this key. */
  public synchronized Optional<String> folder(String surveyKey) {
    try (PreparedStatement s =
        connection.prepareStatement("SELECT folder FROM photo WHERE survey_key = ?")) {
      s.setString(1, surveyKey);
      try (ResultSet r = s.executeQuery()) {
        return r.next() ? Optional.of(r.getString(1)) : Optional.empty();
      }
    } catch (SQLException e) {
      throw refused(file, e);
    }
  }

  /**
   * Notes a survey that lies complete in its folder, and the file it is of; one of the same key is
   * replaced.
   */
  public synchronized void add(
      SourceRow source,
      String folder,
      Survey survey,
      Map<String, Long> bytes,
      SortedMap<String, String> sums) {
    atomically(
        () -> {
          SurveyRows rows = new SurveyRows(connection);
          rows.put(source.surveyKey(), folder, survey, bytes, sums);
          rows.source(source);
        });
  }

  /** Notes what became of a file that was given. */
  public synchronized void note(SourceRow source) {
    atomically(() -> new SurveyRows(connection).source(source));
  }

  /** Work on rows. */
  private interface Rows {
    void run() throws SQLException;
  }

  /**
   * All rows or none. After a refused write nothing more is written: without a transaction each row
   * would count by itself.
   */
  private void atomically(Rows rows) {
    if (broken) {
      throw refused(file, new SQLException("an earlier write was refused"));
    }
    try {
      try {
        rows.run();
        connection.commit();
      } catch (SQLException | RuntimeException e) {
        broken = true;
        connection.rollback();
        broken = e instanceof SQLException;
        throw e;
      }
    } catch (SQLException e) {
      throw refused(file, e);
    }
  }

  /** Writes what is committed to a new file, which has no journal beside it. */
  synchronized void snapshot(Path copy) {
    try {
      connection.setAutoCommit(true);
      try (PreparedStatement s = connection.prepareStatement("VACUUM INTO ?")) {
        s.setString(1, copy.toString());
        s.execute();
      } finally {
        connection.setAutoCommit(false);
      }
    } catch (SQLException e) {
      throw refused(file, e);
    }
  }

  private static DieInputException refused(Path file, SQLException e) {
    return ArchiveFolder.refused(
        file + ": the database of the archive cannot be used (" + e.getMessage() + ").", e);
  }

  /**
   * Ends the connection. An archive at rest is one file without a journal beside it, so that it can
   * be read from a medium that cannot be written; if somebody is reading just now, the journal
   * stays.
   */
  @Override
  public synchronized void close() {
    try {
      if (broken) {
        connection.close();
        return;
      }
      connection.rollback();
      connection.setAutoCommit(true);
      try (Statement s = connection.createStatement()) {
        s.execute("PRAGMA busy_timeout = 200");
        s.execute("PRAGMA journal_mode = DELETE");
      } catch (SQLException e) {
        // A reader holds it; the journal is as good.
      }
      connection.close();
    } catch (SQLException e) {
      throw refused(file, e);
    }
  }
}
