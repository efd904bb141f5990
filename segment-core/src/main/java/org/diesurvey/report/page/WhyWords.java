package org.diesurvey.report.page;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;
import org.diesurvey.classification.DieClass;
import org.diesurvey.report.picture.CropTexture;
import org.diesurvey.report.picture.RegionLook;
import org.diesurvey.report.text.Quantities;
import org.diesurvey.survey.Point;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.SurveyRegion;

/**
 * What the crop of a region says for and against each class, in words of the trade. The model
 * judges by many more figures; these are those that a person can check by eye.
 */
final class WhyWords {
  private static final DieClass MEMORY = DieClass.MEMORY_ARRAY;
  private static final DieClass MACRO = DieClass.HARD_MACRO;
  private static final DieClass LOGIC = DieClass.LOGIC;
  private static final DieClass RING = DieClass.PAD_RING;
  private static final List<DieClass> ON_DIE = List.of(MEMORY, MACRO, LOGIC, RING);

  /** Scatter of the contrast under which a texture is the same everywhere. */
  private static final double EVEN = 0.12;

  private static final double UNEVEN = 0.4;

  /** Distance from the die's edge, as a share of its shorter side, that counts as at the edge. */
  private static final double AT_EDGE = 0.02;

  /** One thing seen, and the classes that it speaks for and against. */
  private record Sign(String words, Set<DieClass> against, Set<DieClass> in) {}

  /**
   * One class.
   *
   * @param name of the class
   * @param probability in words; empty where none was given
   * @param speaksFor what was seen for it, joined; may be empty
   * @param speaksAgainst what was seen against it, joined; may be empty
   */
  record Case(String name, String probability, String speaksFor, String speaksAgainst) {}

  private final Survey survey;
  private final double typicalContrast;

  /**
   * @param looks crops of the die, which say what contrast is usual on it
   */
  WhyWords(Survey survey, Map<String, RegionLook> looks) {
    this.survey = survey;
    double[] contrasts =
        looks.values().stream().mapToDouble(l -> l.texture().contrast()).sorted().toArray();
    typicalContrast = contrasts.length == 0 ? 0 : contrasts[contrasts.length / 2];
  }

  /** The four classes, each with what speaks for and against it. */
  List<Case> of(SurveyRegion r, RegionLook look) {
    List<Sign> signs = signs(r, look.texture());
    List<Case> out = new ArrayList<>();
    for (DieClass c : ON_DIE) {
      Double p = r.verdict().probabilities().get(c);
      out.add(
          new Case(
              c.label(),
              p == null ? "" : Quantities.probability(p),
              joined(signs.stream().filter(s -> s.in.contains(c)).toList()),
              joined(signs.stream().filter(s -> s.against.contains(c)).toList())));
    }
    return out;
  }

  private static String joined(List<Sign> signs) {
    return String.join("; ", signs.stream().map(Sign::words).toList());
  }

  private List<Sign> signs(SurveyRegion r, CropTexture t) {
    List<Sign> out = new ArrayList<>();
    OptionalInt x = CropTexture.period(t.alongX());
    OptionalInt y = CropTexture.period(t.alongY());
    if (x.isPresent() && y.isPresent()) {
      out.add(
          sign(
              "repeats along both axes, every " + length(x) + " by " + length(y),
              Set.of(MEMORY),
              Set.of(LOGIC, MACRO)));
    } else if (x.isPresent() || y.isPresent()) {
      out.add(
          sign(
              "repeats along one axis, every "
                  + length(x.isPresent() ? x : y)
                  + ", as cell rows do",
              Set.of(LOGIC),
              Set.of()));
    } else {
      out.add(sign("nothing repeats in the crop", Set.of(MACRO), Set.of(MEMORY)));
    }
    if (t.unevenness() < EVEN) {
      out.add(sign("the same texture everywhere", Set.of(MEMORY, LOGIC), Set.of(MACRO)));
    } else if (t.unevenness() > UNEVEN) {
      out.add(sign("parts of unlike texture", Set.of(MACRO, RING), Set.of(MEMORY, LOGIC)));
    }
    if (t.flat() > 0.5) {
      out.add(sign("mostly flat ground", Set.of(), Set.of(MEMORY, LOGIC)));
    } else if (t.flat() < 0.05) {
      out.add(sign("no flat ground", Set.of(MEMORY, LOGIC), Set.of()));
    }
    if (typicalContrast > 0 && t.contrast() > 1.6 * typicalContrast) {
      out.add(sign("contrast well above the die's usual", Set.of(RING, MACRO), Set.of()));
    } else if (typicalContrast > 0 && t.contrast() < 0.6 * typicalContrast) {
      out.add(sign("contrast well below the die's usual", Set.of(), Set.of(RING)));
    }
    atEdge(r, out);
    if (r.bondPads().isPresent()) {
      out.add(sign("bond pads in a row", Set.of(RING), Set.of()));
    }
    return out;
  }

  private static Sign sign(String words, Set<DieClass> in, Set<DieClass> against) {
    return new Sign(words, against, in);
  }

  private void atEdge(SurveyRegion r, List<Sign> out) {
    if (!survey.die().edgeFound()) {
      return;
    }
    List<Point> die = survey.die().outlinePx();
    double shorter = Math.min(length(die.get(0), die.get(1)), length(die.get(0), die.get(3)));
    double least = Double.MAX_VALUE;
    for (Point p : r.inPhoto().outline().shell()) {
      for (int i = 0; i < die.size(); i++) {
        least = Math.min(least, distance(p, die.get(i), die.get((i + 1) % die.size())));
      }
    }
    if (least <= AT_EDGE * shorter) {
      out.add(sign("lies along the die's edge", Set.of(RING), Set.of()));
    } else {
      out.add(sign("lies off the die's edge", Set.of(), Set.of(RING)));
    }
  }

  private static double length(Point a, Point b) {
    return Math.hypot(a.x() - b.x(), a.y() - b.y());
  }

  /** Of a place from the line through two others. */
  private static double distance(Point p, Point a, Point b) {
    double cross = (b.x() - a.x()) * (p.y() - a.y()) - (b.y() - a.y()) * (p.x() - a.x());
    return Math.abs(cross) / Math.max(1e-9, length(a, b));
  }

  /** To the lag's own step of one px. */
  private String length(OptionalInt lagPx) {
    OptionalDouble pitch =
        survey
            .scale()
            .calibration()
            .map(c -> OptionalDouble.of(c.umPerPx().value()))
            .orElse(OptionalDouble.empty());
    return pitch.isPresent()
        ? Quantities.significant(lagPx.getAsInt() * pitch.getAsDouble(), 2) + "\u00a0\u00b5m"
        : lagPx.getAsInt() + "\u00a0px";
  }
}
