package org.diesurvey.scoring;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.Optional;
import java.util.OptionalDouble;
import org.diesurvey.classification.DieClass;

/**
 * Scores as JSON: the same scores give the same text, byte for byte. Figures are rounded to six
 * decimals; unknown ones are null.
 */
public final class ScoreJson {
  /** Format name in the document. */
  public static final String FORMAT = "diesurvey-score";

  /** Version of the document's form. */
  public static final int FORMAT_VERSION = 1;

  private static final JsonNodeFactory NODES = JsonNodeFactory.instance;

  private ScoreJson() {}

  /** The document as text, indented, ending with a line feed. */
  public static String text(ScoreSummary summary) {
    return written(tree(summary));
  }

  /** A tree as text, indented, ending with a line feed. */
  static String written(ObjectNode tree) {
    JsonMapper mapper = JsonMapper.builder().build();
    try {
      return mapper
              .writer()
              .with(SerializationFeature.INDENT_OUTPUT)
              .writeValueAsString(tree)
              .replace("\r\n", "\n")
          + "\n";
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("a tree of plain values could not be written", e);
    }
  }

  /** The document as a tree. */
  public static ObjectNode tree(ScoreSummary summary) {
    ObjectNode root = NODES.objectNode();
    root.put("format", FORMAT);
    root.put("formatVersion", FORMAT_VERSION);
    root.set("summary", summaryNode(summary));
    ArrayNode dies = root.putArray("dies");
    summary.cards().forEach(c -> dies.add(card(c)));
    return root;
  }

  private static ObjectNode summaryNode(ScoreSummary summary) {
    ObjectNode node = NODES.objectNode();
    node.put("dies", summary.cards().size());
    put(node, "meanIou", summary.meanIou());
    put(node, "worstMeanIou", summary.worstIou());
    put(node, "meanNotScoredShare", OptionalDouble.of(summary.meanNotScored()));
    put(node, "meanWholeMemoryIou", summary.meanWholeMemoryIou());
    ObjectNode classes = node.putObject("classes");
    for (DieClass c : ScoredClasses.ON_DIE) {
      ObjectNode one = classes.putObject(c.label());
      put(one, "meanIou", summary.meanIou(c));
      put(one, "meanAbsoluteShareErrorPoints", summary.meanShareErrorPoints(c));
    }
    put(node, "meanLargestShareErrorPoints", summary.meanLargestShareErrorPoints());
    put(node, "meanUnclearShare", summary.meanUnclearShare());
    put(node, "meanEdgeMedianUm", summary.meanEdgeMedianUm());
    put(node, "meanEdgePercentile95Um", summary.meanEdgePercentile95Um());
    put(node, "meanAbsolutePadErrorPercent", summary.meanPadErrorPercent());
    node.put("diesWithPadsExact", summary.padsExact());
    node.put("diesWithPadsKnown", summary.padsKnown());
    node.set(
        "calibration",
        calibration(summary.regionsByArea(), summary.regionsEach(), summary.tiles()));
    return node;
  }

  private static ObjectNode card(ScoreCard card) {
    ObjectNode node = NODES.objectNode();
    node.put("die", card.die());
    put(node, "umPerPx", card.umPerPx());
    put(node, "meanIou", card.meanIou());
    put(node, "notScoredShare", OptionalDouble.of(card.notScored()));
    put(node, "wholeMemoryIou", card.wholeMemoryIou());
    put(node, "unclearShare", OptionalDouble.of(card.unclearShare()));
    put(node, "calledOffDieShare", OptionalDouble.of(card.lostShare()));
    ObjectNode classes = node.putObject("classes");
    for (ClassScore c : card.classes()) {
      ObjectNode one = classes.putObject(c.dieClass().label());
      one.put("inTruth", c.inTruth());
      put(one, "iou", c.iou());
      put(one, "precision", c.precision());
      put(one, "recall", c.recall());
      put(one, "trueShare", OptionalDouble.of(c.trueShare()));
      put(one, "predictedShare", OptionalDouble.of(c.predictedShare()));
      put(one, "shareErrorPoints", OptionalDouble.of(c.shareErrorPoints()));
      one.set("edges", edges(c.edges()));
    }
    node.set("edges", edges(card.edges()));
    node.set("confusion", confusion(card));
    node.set("calibration", calibration(card.regionsByArea(), card.regionsEach(), card.tiles()));
    if (card.pads().isPresent()) {
      ObjectNode pads = node.putObject("bondPads");
      pads.put("counted", card.pads().get().counted());
      pads.put("actual", card.pads().get().actual());
    } else {
      node.putNull("bondPads");
    }
    return node;
  }

  private static ObjectNode edges(EdgeError e) {
    ObjectNode node = NODES.objectNode();
    node.put("unit", e.unit());
    node.put("points", e.points());
    node.put("unmatched", e.unmatched());
    put(node, "median", e.median());
    put(node, "percentile95", e.percentile95());
    return node;
  }

  /** Rows: true class; members of a row: predicted class, in square pixels, percent and mm2. */
  private static ObjectNode confusion(ScoreCard card) {
    ObjectNode node = NODES.objectNode();
    ConfusionMatrix m = card.confusion();
    double scored = Math.max(1, m.scored());
    for (DieClass t : m.rows()) {
      ObjectNode row = node.putObject(t.label());
      for (DieClass p : m.columns()) {
        ObjectNode cell = row.putObject(p.label());
        long count = m.count(t, p);
        cell.put("px", count);
        put(cell, "percentOfScored", OptionalDouble.of(100 * count / scored));
        put(
            cell,
            "mm2",
            card.umPerPx().isPresent()
                ? OptionalDouble.of(count * pixelMm2(card.umPerPx().getAsDouble()))
                : OptionalDouble.empty());
      }
    }
    return node;
  }

  static double pixelMm2(double umPerPx) {
    return umPerPx * umPerPx / 1e6;
  }

  private static ObjectNode calibration(
      Optional<ReliabilityTable> byArea,
      Optional<ReliabilityTable> each,
      Optional<ReliabilityTable> tiles) {
    ObjectNode node = NODES.objectNode();
    put(node, "regionsByArea", byArea);
    put(node, "regionsEach", each);
    put(node, "tiles", tiles);
    return node;
  }

  private static void put(ObjectNode node, String name, Optional<ReliabilityTable> table) {
    if (table.isEmpty()) {
      node.putNull(name);
      return;
    }
    ReliabilityTable t = table.get();
    ObjectNode one = node.putObject(name);
    put(one, "expectedCalibrationError", OptionalDouble.of(t.expectedError()));
    put(one, "rootMeanSquareCalibrationError", OptionalDouble.of(t.rootMeanSquareError()));
    put(one, "maximumCalibrationError", OptionalDouble.of(t.maximumError()));
    ArrayNode bins = one.putArray("bins");
    for (ReliabilityTable.Bin b : t.bins()) {
      ObjectNode bin = bins.addObject();
      put(bin, "low", OptionalDouble.of(b.low()));
      put(bin, "high", OptionalDouble.of(b.high()));
      put(bin, "weight", OptionalDouble.of(b.weight()));
      put(bin, "meanConfidence", some(b, b.meanConfidence()));
      put(bin, "shareRight", some(b, b.shareRight()));
    }
  }

  private static OptionalDouble some(ReliabilityTable.Bin bin, double value) {
    return bin.weight() == 0 ? OptionalDouble.empty() : OptionalDouble.of(value);
  }

  static void put(ObjectNode node, String name, OptionalDouble value) {
    if (value.isPresent()) {
      node.put(name, Math.rint(value.getAsDouble() * 1e6) / 1e6 + 0.0);
    } else {
      node.putNull(name);
    }
  }
}
