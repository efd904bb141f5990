package org.diesurvey.archive.store;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import org.diesurvey.archive.BatchOutcome;
import org.diesurvey.archive.PhotoLabels;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.classification.UnclearReason;
import org.diesurvey.estimates.DieTotal;
import org.diesurvey.quantity.Measured;
import org.diesurvey.survey.BondPadCount;
import org.diesurvey.survey.ClassTotal;
import org.diesurvey.survey.Notice;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.SurveyRegion;

/** Writes surveys into the tables of an archive; made from the survey alone. */
final class SurveyRows {
  private final Connection connection;

  SurveyRows(Connection connection) {
    this.connection = connection;
  }

  void put(
      String key,
      String folder,
      Survey survey,
      Map<String, Long> bytes,
      SortedMap<String, String> sums)
      throws SQLException {
    Optional<Long> before = id(key);
    if (before.isPresent()) {
      for (String table : new String[] {"region", "class_total", "estimate", "notice", "file"}) {
        run("DELETE FROM " + table + " WHERE photo_id = ?", before.get());
      }
      // Files given before keep pointing to the number, which the new row takes over.
      run("PRAGMA defer_foreign_keys = ON");
      run("DELETE FROM photo WHERE photo_id = ?", before.get());
    }
    photo(before.orElse(null), key, folder, survey);
    long id = id(key).orElseThrow();
    for (SurveyRegion r : survey.regions()) {
      region(id, r);
    }
    for (ClassTotal t : survey.totals()) {
      run(
          "INSERT INTO class_total VALUES (?,?,?,?,?,?,?)",
          id,
          t.dieClass().label(),
          t.reason().map(UnclearReason::label).orElse(""),
          t.regions(),
          value(t.areaMm2()),
          uncertainty(t.areaMm2()),
          t.shareOfDie());
    }
    if (survey.estimates().isPresent()) {
      for (DieTotal t : survey.estimates().get().totals()) {
        run(
            "INSERT INTO estimate VALUES (?,?,?,?,?,?)",
            id,
            t.kind().label(),
            t.amount().value(),
            t.amount().low(),
            t.amount().high(),
            t.origin());
      }
    }
    for (Notice n : survey.notices()) {
      run("INSERT INTO notice VALUES (?,?,?,?)", id, n.id(), n.sentence(), n.remedy());
    }
    for (var sum : sums.entrySet()) {
      run(
          "INSERT INTO file VALUES (?,?,?,?)",
          id,
          sum.getKey(),
          bytes.get(sum.getKey()),
          sum.getValue());
    }
  }

  private void photo(Long number, String key, String folder, Survey s) throws SQLException {
    Optional<Calibration> scale = s.scale().calibration();
    run(
        "INSERT INTO photo VALUES (?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?)",
        number,
        key,
        folder,
        s.photo().fileName(),
        s.photo().sha256(),
        s.photo().fileBytes(),
        s.photo().format(),
        s.photo().widthPx(),
        s.photo().heightPx(),
        s.method().nodeNm().isPresent() ? s.method().nodeNm().getAsDouble() : null,
        value(scale.map(Calibration::umPerPx)),
        uncertainty(scale.map(Calibration::umPerPx)),
        scale.map(c -> c.origin().name()).orElse(null),
        s.die().edgeFound() ? 1 : 0,
        s.die().rotationDeg(),
        value(s.die().widthMm()),
        value(s.die().heightMm()),
        value(s.die().areaMm2()),
        uncertainty(s.die().areaMm2()),
        s.preparation().damagedShare(),
        s.method().software().name(),
        s.method().software().version(),
        s.method().software().model(),
        s.method().software().modelSha256());
  }

  private void region(long id, SurveyRegion r) throws SQLException {
    run(
        "INSERT INTO region VALUES (?,?,?,?,?,?,?,?,?,?,?)",
        id,
        r.id(),
        r.dieClass().label(),
        r.verdict().reason().map(UnclearReason::label).orElse(null),
        r.area().px2(),
        value(r.areaMm2()),
        uncertainty(r.areaMm2()),
        r.area().shareOfDie(),
        r.confidence(),
        r.inPhoto().bitCellArrays().size(),
        r.bondPads().map(BondPadCount::pads).orElse(null));
  }

  void source(SourceRow source) throws SQLException {
    BatchOutcome outcome = source.outcome();
    String sha256 = source.sha256();
    String key = source.surveyKey();
    PhotoLabels labels = outcome.photo().labels();
    run(
        "INSERT OR REPLACE INTO source VALUES (?,?,?,?,?,?,?,?,?,?,?,?)",
        source.path(),
        String.valueOf(outcome.photo().file().getFileName()),
        key,
        sha256.isEmpty() ? null : sha256,
        outcome.hasSurvey()
            ? "surveyed"
            : outcome.kind() == BatchOutcome.Kind.REJECTED ? "rejected" : "failed",
        outcome.reason().orElse(null),
        source.sentence(),
        outcome.hasSurvey() ? id(key).orElseThrow() : null,
        labels.dieName().orElse(null),
        labels.revision().orElse(null),
        labels.layer().orElse(null),
        labels.notes().orElse(null));
  }

  private Optional<Long> id(String key) throws SQLException {
    try (PreparedStatement s =
        connection.prepareStatement("SELECT photo_id FROM photo WHERE survey_key = ?")) {
      s.setString(1, key);
      try (ResultSet r = s.executeQuery()) {
        return r.next() ? Optional.of(r.getLong(1)) : Optional.empty();
      }
    }
  }

  private void run(String sql, Object... values) throws SQLException {
    try (PreparedStatement s = connection.prepareStatement(sql)) {
      for (int i = 0; i < values.length; i++) {
        s.setObject(i + 1, values[i]);
      }
      s.executeUpdate();
    }
  }

  private static Double value(Optional<Measured> m) {
    return m.map(Measured::value).orElse(null);
  }

  private static Double uncertainty(Optional<Measured> m) {
    return m.map(Measured::standardUncertainty).orElse(null);
  }
}
