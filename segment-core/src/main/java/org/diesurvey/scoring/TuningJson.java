package org.diesurvey.scoring;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.OptionalDouble;

/** What hangs on the values of the tuning, as JSON; rounded as in {@link ScoreJson}. */
public final class TuningJson {
  /** Format name in the document. */
  public static final String FORMAT = "diesurvey-tuning";

  private TuningJson() {}

  /** The document as text, indented, ending with a line feed. */
  public static String text(List<TuningEffect> effects, List<String> dies) {
    ObjectNode root = JsonNodeFactory.instance.objectNode();
    root.put("format", FORMAT);
    root.put("formatVersion", 1);
    ArrayNode names = root.putArray("dies");
    dies.forEach(names::add);
    ArrayNode values = root.putArray("values");
    for (TuningEffect e : effects) {
      ObjectNode node = values.addObject();
      node.put("name", e.name());
      node.put("unit", e.unit());
      node.put("value", e.value());
      node.put("chosenOn", e.chosenOn());
      ScoreJson.put(node, "meanIouLess", e.iouLess());
      ScoreJson.put(node, "meanIouNow", e.iouNow());
      ScoreJson.put(node, "meanIouMore", e.iouMore());
      ScoreJson.put(node, "largestShareChangePoints", OptionalDouble.of(e.sharePoints()));
      node.put("diesChanged", e.diesChanged());
    }
    return ScoreJson.written(root);
  }
}
