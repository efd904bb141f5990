package org.diesurvey.report.picture;

import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;
import org.diesurvey.classification.DieClass;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.SurveyRegion;

/**
 * The label map and the confidence map of a survey, row by row from the top, so that a map of any
 * size needs two rows of memory. Where regions overlap the earlier one of the list wins, but a
 * class wins over unclear; a place on the die without a region is unclear.
 */
final class MapRows {
  private static final byte UNCLEAR = (byte) DieClass.UNCLEAR.code();

  private final int width;
  private final OutlineRows die;
  private final Layer[] layers;
  private final byte[] labels;
  private final byte[] confidences;

  private record Layer(OutlineRows rows, byte label, byte confidence) {}

  MapRows(Survey survey) {
    width = survey.photo().widthPx();
    labels = new byte[width];
    confidences = new byte[width];
    die = new OutlineRows(List.of(survey.die().outlinePx()));
    // Unclear areas come last, so that "first come, first kept" is the whole rule.
    layers =
        IntStream.range(0, survey.regions().size())
            .mapToObj(i -> survey.regions().get(i))
            .sorted(Comparator.comparing(r -> r.dieClass() == DieClass.UNCLEAR))
            .map(MapRows::layer)
            .toArray(Layer[]::new);
  }

  private static Layer layer(SurveyRegion r) {
    return new Layer(
        new OutlineRows(r.inPhoto().outline()),
        (byte) r.dieClass().code(),
        (byte) Math.round(255 * Math.min(1, Math.max(0, r.confidence()))));
  }

  /** Computes a row; rows must not go back. */
  void row(int y) {
    Arrays.fill(labels, (byte) DieClass.OFF_DIE.code());
    Arrays.fill(confidences, (byte) 0);
    for (int i = layers.length - 1; i >= 0; i--) {
      Layer layer = layers[i];
      if (y >= layer.rows.firstRow() && y <= layer.rows.lastRow()) {
        layer.rows.row(
            y,
            width,
            (from, to) -> {
              Arrays.fill(labels, from, to, layer.label);
              Arrays.fill(confidences, from, to, layer.confidence);
            });
      }
    }
    die.row(
        y,
        width,
        (from, to) -> {
          for (int x = from; x < to; x++) {
            if (labels[x] == 0) {
              labels[x] = UNCLEAR;
            }
          }
        });
  }

  /** Class codes of the row computed last; overwritten by the next row. */
  byte[] labels() {
    return labels;
  }

  /** Confidence 0 to 255 for 0 to 1 of the row computed last; overwritten by the next row. */
  byte[] confidences() {
    return confidences;
  }
}
