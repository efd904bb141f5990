package org.diesurvey.preparation;

import java.util.Arrays;
import java.util.Collections;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import org.diesurvey.Supported;

/**
 * One thing that was done to a photograph before it was classified.
 *
 * @param kind what was done
 * @param sentence what was done and found, for people
 * @param figures the numbers in it by name; the unit ends the name
 */
@Supported
public record PreparationStep(Kind kind, String sentence, SortedMap<String, Double> figures) {
  /** Figure of {@link Kind#DIE_EDGE}: how uncertain the place of an edge is, photo px. */
  public static final String EDGE_UNCERTAINTY_PX = "edge_uncertainty_px";

  /** What can be done, in the order in which it is. */
  public enum Kind {
    /** One plane of several was read. */
    PLANE("plane"),
    /** The picture was turned as the file says. */
    ORIENTATION("orientation"),
    /** Samples were converted. */
    SAMPLES("samples"),
    /** Levels were scaled to those in use. */
    LEVELS("levels"),
    /** The die's frame was found. */
    DIE_EDGE("die-edge"),
    /** The frame was found to be seen at a slant and was set upright. */
    TILT("tilt"),
    /** Pixels were averaged. */
    AVERAGING("averaging"),
    /** Colours were made one grey by their hue. */
    GREY_FROM_HUE("grey-from-hue"),
    /** The light was estimated from the die itself and evened. */
    LIGHT("light"),
    /** The light was evened by a photograph of an empty field. */
    FLAT_FIELD("flat-field"),
    /** The middle of the greys was brought to its place. */
    TONE("tone"),
    /** The same for a die that is very dark or very bright. */
    UNUSUAL_TONE("unusual-tone");

    private final String id;

    Kind(String id) {
      this.id = id;
    }

    /** Stable identifier in documents, lower case with hyphens. */
    public String id() {
      return id;
    }

    /** The kind with this identifier, if there is one. */
    public static Optional<Kind> ofId(String id) {
      return Arrays.stream(values()).filter(k -> k.id.equals(id)).findFirst();
    }
  }

  /** Copies the figures. */
  public PreparationStep {
    figures = Collections.unmodifiableSortedMap(new TreeMap<>(figures));
  }

  /** A step without figures. */
  static PreparationStep of(Kind kind, String sentence) {
    return new PreparationStep(kind, sentence, new TreeMap<>());
  }

  /** The same step with one figure more. */
  PreparationStep with(String name, double value) {
    SortedMap<String, Double> more = new TreeMap<>(figures);
    more.put(name, value);
    return new PreparationStep(kind, sentence, more);
  }
}
