package org.diesurvey.survey.json;

import java.util.Arrays;
import java.util.Iterator;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import org.diesurvey.preparation.PreparationStep;
import org.diesurvey.survey.Preparation;

/** Reads the member that tells what was done to the photograph. */
final class SurveyPreparationReader {
  private SurveyPreparationReader() {}

  static Preparation preparation(JsonMember m, double damagedShare) {
    m.onlyMembers(Set.of("steps", "dies_in_photo", "die_number", "flat_field", "damage"));
    return new Preparation(
        m.member("steps").list(SurveyPreparationReader::step),
        (int) m.member("dies_in_photo").whole(1, Integer.MAX_VALUE),
        (int) m.member("die_number").whole(1, Integer.MAX_VALUE),
        m.optional("flat_field")
            .map(f -> f.onlyMembers(Set.of("file_name", "sha256")))
            .map(
                f ->
                    new Preparation.FlatFieldFile(
                        f.member("file_name").text(), sha256(f.member("sha256")))),
        m.member("damage").list(SurveyPreparationReader::damage),
        damagedShare);
  }

  private static String sha256(JsonMember m) {
    if (!m.text().matches("[0-9a-f]{64}")) {
      throw m.refused("64 lower-case hexadecimal digits were expected");
    }
    return m.text();
  }

  private static PreparationStep step(JsonMember m) {
    m.onlyMembers(Set.of("id", "sentence", "figures"));
    JsonMember figures = m.member("figures");
    if (!figures.node().isObject()) {
      throw figures.refused("an object was expected");
    }
    SortedMap<String, Double> all = new TreeMap<>();
    for (Iterator<String> it = figures.node().fieldNames(); it.hasNext(); ) {
      String name = it.next();
      all.put(name, figures.member(name).number());
    }
    JsonMember id = m.member("id");
    PreparationStep.Kind kind =
        PreparationStep.Kind.ofId(id.text())
            .orElseThrow(() -> id.refused("\"" + id.text() + "\" is no known step"));
    return new PreparationStep(kind, m.member("sentence").text(), all);
  }

  private static Preparation.DamageShare damage(JsonMember m) {
    m.onlyMembers(Set.of("kind", "places", "share_of_die"));
    JsonMember kind = m.member("kind");
    return new Preparation.DamageShare(
        Arrays.stream(Preparation.Damage.values())
            .filter(d -> d.id().equals(kind.text()))
            .findFirst()
            .orElseThrow(() -> kind.refused("\"" + kind.text() + "\" is no known kind of damage")),
        (int) m.member("places").whole(1, Integer.MAX_VALUE),
        m.member("share_of_die").share());
  }
}
