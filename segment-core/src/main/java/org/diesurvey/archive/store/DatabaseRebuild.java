package org.diesurvey.archive.store;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import org.diesurvey.DieInputException;

/**
 * Brings the database of an archive in line with its folders. The folders count: a database that is
 * missing, empty, damaged or of something else is made anew from them, and an older one learns what
 * it does not know. One that is in the way is set aside, never removed.
 */
public final class DatabaseRebuild {
  private DatabaseRebuild() {}

  /**
   * What is to be done.
   *
   * @param state of the file
   * @param known folders that have rows; none if the file is set aside
   * @param unknown complete surveys without rows
   */
  public record Plan(
      ArchiveDatabase.State state, Set<String> known, List<ArchivePlace.Complete> unknown) {
    public boolean setsAside() {
      return state == ArchiveDatabase.State.FOREIGN || state == ArchiveDatabase.State.DAMAGED;
    }

    /** Surveys that can be noted without their photographs. */
    long rebuilt() {
      return unknown.stream().filter(c -> c.note().isPresent()).count();
    }

    /**
     * In a sentence; empty if nothing is to be done.
     *
     * @param done "was rebuilt" or the like
     */
    public Optional<String> sentence(String done) {
      String surveys = rebuilt() + (rebuilt() == 1 ? " complete survey" : " complete surveys");
      if (state == ArchiveDatabase.State.OURS) {
        return rebuilt() == 0
            ? Optional.empty()
            : Optional.of("the database did not know " + surveys + "; it " + done + " with them.");
      }
      if (rebuilt() == 0 && !setsAside()) {
        return Optional.empty();
      }
      return Optional.of(
          "the database was "
              + words()
              + "; it "
              + done
              + " from "
              + surveys
              + (setsAside() ? ", and the file in its place set aside." : "."));
    }

    private String words() {
      return switch (state) {
        case FOREIGN -> "that of something else";
        case DAMAGED -> "damaged";
        case EMPTY -> "empty";
        default -> "missing";
      };
    }
  }

  /** Looks at a database and the folders beside it. */
  public static Plan plan(Path database, Folders folders) throws IOException {
    ArchiveDatabase.State state = ArchiveDatabase.state(database);
    Set<String> known =
        state == ArchiveDatabase.State.OURS ? ArchiveDatabase.folders(database) : Set.of();
    List<ArchivePlace.Complete> unknown = folders.unknown(known);
    Set<String> here = new HashSet<>(known);
    here.retainAll(folders.names());
    if (!known.isEmpty() && here.isEmpty() && !unknown.isEmpty()) {
      return new Plan(ArchiveDatabase.State.FOREIGN, Set.of(), unknown);
    }
    return new Plan(state, known, unknown);
  }

  /** Folders of surveys. */
  interface Folders {
    /** Names of all. */
    Set<String> names() throws IOException;

    /** Complete ones that are none of the given. */
    List<ArchivePlace.Complete> unknown(Set<String> known) throws IOException;
  }

  /**
   * Notes what the database does not know, the earliest first, so that of two surveys of one
   * photograph the later counts.
   *
   * @return surveys that can only be noted together with their photographs, by name
   */
  public static Map<String, ArchivePlace.Complete> note(
      ArchiveDatabase database, Plan plan, ArchivePlace archive) throws IOException {
    Map<String, ArchivePlace.Complete> left = new TreeMap<>();
    Map<String, ArchivePlace.Filed> filed = new HashMap<>();
    List<ArchivePlace.Complete> noted = new ArrayList<>();
    for (ArchivePlace.Complete c : plan.unknown()) {
      try {
        filed.put(c.name(), c.read().filed());
        boolean telling =
            c.note().isPresent() && database.folder(c.note().get().surveyKey()).isEmpty();
        if (telling) {
          noted.add(c);
        } else {
          left.put(c.name(), c);
        }
      } catch (DieInputException | IOException e) {
        // It cannot be read; archive check tells.
      }
    }
    noted.sort(
        Comparator.comparing(
                (ArchivePlace.Complete c) -> filed.get(c.name()).created().orElse(Instant.EPOCH))
            .thenComparing(ArchivePlace.Complete::name));
    for (ArchivePlace.Complete c : noted) {
      ArchivePlace.Filed f = filed.get(c.name());
      database.add(
          c.note().get().row(f.survey().photo().fileName(), archive.photo(c.name())),
          c.name(),
          f.survey(),
          f.bytes(),
          f.sums());
    }
    return left;
  }
}
