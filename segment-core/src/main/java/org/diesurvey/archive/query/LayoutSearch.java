package org.diesurvey.archive.query;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.diesurvey.DieInputException;
import org.diesurvey.archive.store.ArchiveFolder;
import org.diesurvey.comparison.registration.LayoutSignature;
import org.diesurvey.comparison.registration.LayoutSignature.Likeness;
import org.diesurvey.report.SurveyFolder;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.json.SurveyJson;

/** Finds surveys of an archive whose layout is like that of a given one: likely revisions. */
public final class LayoutSearch {
  private static final String ROWS =
      "SELECT p.folder, p.file_name, p.sha256, min(s.die_name) AS die_name,"
          + " min(s.revision) AS revision"
          + " FROM photo p LEFT JOIN source s USING (photo_id) GROUP BY p.photo_id"
          + " ORDER BY p.folder";

  private LayoutSearch() {}

  /**
   * One survey of the archive.
   *
   * @param folder its folder below {@code photos}
   * @param fileName name of its photograph
   * @param sha256 of its photograph
   * @param dieName as its owner names it; empty if not stated
   * @param revision as its owner names it; empty if not stated
   * @param likeness to the survey that was asked for
   */
  public record Match(
      String folder,
      String fileName,
      String sha256,
      String dieName,
      String revision,
      Likeness likeness) {}

  /**
   * The surveys most alike, best first. Those of the same photograph are left out.
   *
   * @param archive folder of the archive
   * @param wanted survey of the die whose earlier revisions are wanted
   * @param most how many
   * @throws DieInputException FILE_MISSING if there is no archive
   */
  public static List<Match> alike(Path archive, Survey wanted, int most) {
    LayoutSignature later = LayoutSignature.of(wanted);
    Path photos = archive.toAbsolutePath().normalize().resolve(ArchiveFolder.PHOTOS);
    ArchiveTable rows = ArchiveTable.read(archive, ROWS, List.of());
    return IntStream.range(0, rows.rows().size())
        .parallel()
        .filter(row -> !rows.text(row, "sha256").equals(wanted.photo().sha256()))
        .mapToObj(row -> match(photos, rows, row, later))
        .flatMap(Optional::stream)
        .sorted(
            Comparator.comparingDouble((Match m) -> -m.likeness().score())
                .thenComparing(Match::folder))
        .limit(most)
        .toList();
  }

  /** The matches as a table: score with two decimals, how the later die lies, and what it is. */
  public static ArchiveTable table(List<Match> matches) {
    List<List<Object>> rows = new ArrayList<>();
    for (Match m : matches) {
      BigDecimal score =
          BigDecimal.valueOf(m.likeness().score()).setScale(2, RoundingMode.HALF_EVEN);
      rows.add(
          List.of(
              score,
              m.likeness().orientation().label(),
              m.fileName(),
              m.dieName(),
              m.revision(),
              ArchiveFolder.PHOTOS + "/" + m.folder(),
              m.sha256()));
    }
    return new ArchiveTable(
        List.of("score", "lies", "file_name", "die_name", "revision", "folder", "sha256"), rows);
  }

  /** Empty where the survey's file is missing or damaged; {@code archive check} names those. */
  private static Optional<Match> match(
      Path photos, ArchiveTable rows, int row, LayoutSignature later) {
    try {
      Path file = photos.resolve(rows.text(row, "folder")).resolve(SurveyFolder.SURVEY);
      LayoutSignature earlier = LayoutSignature.of(SurveyJson.readDocument(file).survey());
      return Optional.of(
          new Match(
              rows.text(row, "folder"),
              rows.text(row, "file_name"),
              rows.text(row, "sha256"),
              rows.text(row, "die_name"),
              rows.text(row, "revision"),
              earlier.likeness(later)));
    } catch (DieInputException e) {
      return Optional.empty();
    }
  }
}
