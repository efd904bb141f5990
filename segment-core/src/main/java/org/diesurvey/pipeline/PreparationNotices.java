package org.diesurvey.pipeline;

import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.diesurvey.photo.Levels;
import org.diesurvey.photo.Reading;
import org.diesurvey.preparation.DieLocation;
import org.diesurvey.preparation.PreparationStep;
import org.diesurvey.preparation.edges.DieSide;
import org.diesurvey.raster.PixelPoint;
import org.diesurvey.survey.Notice;
import org.diesurvey.survey.SevereNotice;

/** What a reader must know of the die's edge, its neighbours, its tilt and its damage. */
final class PreparationNotices {
  /** Damaged share from which a survey is in doubt. */
  private static final double MUCH_DAMAGE = 0.05;

  /** Convergence beyond which straightening blurs and stretches visibly. */
  private static final double STRONG_TILT = 0.1;

  private PreparationNotices() {}

  static void add(ChosenDie chosen, double damagedShare, List<Notice> out) {
    DieLocation frame = chosen.frame();
    if (frame.realEdges().isEmpty()) {
      out.add(
          new Notice(
              "no-die-edge",
              "No die edge was found, so the whole photograph was surveyed as a crop or single"
                  + " field; shares are of the photograph, and a pad ring is not looked for as a"
                  + " frame.",
              "Photograph the whole die with some background on all four sides to have shares of"
                  + " the die."));
    } else if (frame.partial()) {
      out.add(
          SevereNotice.DIE_CUT.says(
              "The photograph cuts the die: its edge is seen on the "
                  + sides(frame.realEdges())
                  + " only, so areas and shares are of the visible part, and a pad ring is looked"
                  + " for along these edges only.",
              "Photograph the whole die with some background on all four sides to have shares of"
                  + " the die."));
    }
    if (chosen.all().dies().size() > 1 && !chosen.stated()) {
      out.add(several(chosen));
    }
    if (frame.tilted()) {
      out.add(tilted(frame));
    }
    if (damagedShare > MUCH_DAMAGE) {
      out.add(
          new Notice(
              "much-damage",
              String.format(
                  Locale.ROOT,
                  "%.0f %% of the die is hidden by residue, dust, scratches, glare or burns; it is"
                      + " left unclear and counts in no class.",
                  100 * damagedShare),
              "Clean the die, or photograph another one, and compare."));
    }
  }

  static void addReading(Reading reading, List<Notice> out) {
    if (reading.planes() > 1) {
      out.add(
          new Notice(
              "several-planes",
              "The file holds "
                  + reading.planes()
                  + " pictures (planes, channels or pages); plane "
                  + reading.plane()
                  + " was surveyed.",
              "Choose another one by its number: --plane N on the command line."));
    }
    for (String c : reading.conversions()) {
      out.add(
          new Notice(
              "samples-converted",
              c + ", so its levels are not those of the camera.",
              "Export the photograph as 8- or 16-bit grey or RGB."));
    }
  }

  static void addLevels(Levels levels, List<PreparationStep> steps, List<Notice> out) {
    steps.stream()
        .filter(s -> s.kind() == PreparationStep.Kind.UNUSUAL_TONE)
        .forEach(
            s ->
                out.add(
                    new Notice(
                        "unusual-tone",
                        s.sentence()
                            + " Blocks of low confidence may be classed otherwise than in a"
                            + " photograph of usual tone.",
                        "Photograph or export with a linear tone or the usual one of the camera,"
                            + " neither very dark nor very bright.")));
    if (levels.stretched()) {
      out.add(
          new Notice(
              "few-levels",
              String.format(
                  Locale.ROOT,
                  "The picture uses the levels from %.0f to %.0f %% of its %d bits only; they were"
                      + " spread over the scale, and their noise and steps with them, so blocks of"
                      + " low confidence may be classed otherwise than in a full exposure.",
                  100 * levels.low(),
                  100 * levels.high(),
                  levels.bits()),
              "Expose so that the brightest part of the die lies just below white."));
    }
  }

  private static Notice several(ChosenDie chosen) {
    String others =
        IntStream.rangeClosed(1, chosen.all().dies().size())
            .filter(i -> i != chosen.number())
            .mapToObj(i -> "die " + i + " " + place(chosen.all().die(i)))
            .collect(Collectors.joining(", "));
    return new Notice(
        "several-dies",
        String.format(
            Locale.ROOT,
            "The photograph shows %d dies; die %d, the largest and most central, was surveyed, not"
                + " %s.",
            chosen.all().dies().size(),
            chosen.number(),
            others),
        "Choose another one by its number: --die N on the command line.");
  }

  private static String place(DieLocation f) {
    double x = 0;
    double y = 0;
    for (PixelPoint p : f.corners()) {
      x += p.x() / 4;
      y += p.y() / 4;
    }
    return String.format(Locale.ROOT, "(middle at %.0f, %.0f px)", x, y);
  }

  private static Notice tilted(DieLocation f) {
    double most = Math.max(Math.abs(f.convergenceAcross()), Math.abs(f.convergenceDown()));
    String seen =
        String.format(
            Locale.ROOT, "Opposite die edges differ in length by up to %.1f %%", 100 * most);
    if (most > STRONG_TILT) {
      return new Notice(
          "die-tilted",
          seen + ": the die was tilted too much for a reliable correction.",
          "Level the die and photograph it again; do not rely on these areas.");
    }
    return new Notice(
        "die-tilted",
        seen
            + ", so it was tilted; this is straightened, but the shortening that a tilt gives all"
            + " lengths along its slope cannot be told from one photograph.",
        "Level the die, or state the die size, which shows such a shortening.");
  }

  /** "upper and left sides". */
  static String sides(List<DieSide> sides) {
    String names =
        sides.stream()
            .map(DieSide::word)
            .collect(Collectors.joining(sides.size() > 2 ? ", " : " and "));
    return names + (sides.size() == 1 ? " side" : " sides");
  }
}
