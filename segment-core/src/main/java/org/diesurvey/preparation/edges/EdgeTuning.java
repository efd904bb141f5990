package org.diesurvey.preparation.edges;

import java.util.List;
import java.util.function.DoubleFunction;
import org.diesurvey.TunedValue;

/**
 * What decides which straight edges are those of a die. Shares are of the photograph where nothing
 * else is said.
 *
 * @param alone least share of a single die if nothing else speaks for it: a smaller rectangle may
 *     be a block of a larger die
 * @param checked the same if the ground around it is clearly no layout
 * @param cut the same for a die that the photograph cuts: below it, die and ground may be mixed up
 * @param several least share of one of several dies
 * @param ofLargest least area of one of several dies, as a share of the largest
 * @param seen share of the places along every side at which the edge must be seen on the line
 * @param strange largest mean difference of the colour just outside the sides from that of the
 *     ground, over the step into the die: beyond it the outside is layout, not ground
 */
public record EdgeTuning(
    double alone,
    double checked,
    double cut,
    double several,
    double ofLargest,
    double seen,
    double strange) {
  /** The values of ordinary surveys. */
  public static final EdgeTuning DEFAULT = new EdgeTuning(0.28, 0.12, 0.35, 0.02, 0.2, 0.45, 0.25);

  /** Rejects what is no positive number. */
  public EdgeTuning {
    TunedValue.requirePositive(alone, checked, cut, several, ofLargest, seen, strange);
  }

  /** All of them, each with what it was chosen on. */
  public List<TunedValue<EdgeTuning>> values() {
    String unknown = TunedValue.NOT_RECORDED;
    return List.of(
        value(
            "alone",
            alone,
            unknown,
            v -> new EdgeTuning(v, checked, cut, several, ofLargest, seen, strange)),
        value(
            "checked",
            checked,
            unknown,
            v -> new EdgeTuning(alone, v, cut, several, ofLargest, seen, strange)),
        value(
            "cut",
            cut,
            unknown,
            v -> new EdgeTuning(alone, checked, v, several, ofLargest, seen, strange)),
        value(
            "several",
            several,
            unknown,
            v -> new EdgeTuning(alone, checked, cut, v, ofLargest, seen, strange)),
        value(
            "ofLargest",
            ofLargest,
            unknown,
            v -> new EdgeTuning(alone, checked, cut, several, v, seen, strange)),
        value(
            "seen",
            seen,
            unknown,
            v -> new EdgeTuning(alone, checked, cut, several, ofLargest, v, strange)),
        value(
            "strange",
            strange,
            "drawn dies",
            v -> new EdgeTuning(alone, checked, cut, several, ofLargest, seen, v)));
  }

  private static TunedValue<EdgeTuning> value(
      String name, double value, String chosenOn, DoubleFunction<EdgeTuning> with) {
    return new TunedValue<>(name, "share", value, chosenOn, with);
  }
}
