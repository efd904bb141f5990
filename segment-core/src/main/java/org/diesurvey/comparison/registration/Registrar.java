package org.diesurvey.comparison.registration;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;
import org.diesurvey.raster.GrayRaster;
import org.diesurvey.raster.PlaneTransform;
import org.diesurvey.vision.ImageFilters;

/**
 * Lays the second die on the first: coarse correlation proposes, local matches on a finer raster
 * confirm, and a robust affine map over local matches on the finest raster decides.
 */
public final class Registrar {
  /** Finest pitch that is worked at, um/px: below it optics resolve nothing more. */
  private static final double FINEST_UM = 0.6;

  /** Most pixels of the finest raster, for the sake of memory and time. */
  private static final double MOST_PX = 9e6;

  /** Pitch of the raster on which guesses are confirmed, um/px. */
  private static final double MIDDLE_UM = 2.4;

  /** Guesses that are confirmed. */
  private static final int GUESSES = 10;

  /** Correlation from which a local match counts. */
  private static final double LEAST_SCORE = 0.3;

  /** Distance to the second best place from which a local match counts. */
  private static final double LEAST_CLEARNESS = 0.04;

  private final ScaledDie dieA;
  private final ScaledDie dieB;
  private final double pitch;
  private final GrayRaster fineA;
  private final GrayRaster fineB;
  private final int middle;
  private final GrayRaster midA;
  private final GrayRaster midB;
  private final GrayRaster midStructureA;

  /**
   * What was found.
   *
   * @param guess the orientation and ratio that led there
   * @param aToB um of the upright frames, y down
   * @param pitchUm of the finest rasters
   * @param finest both dies on one raster
   * @param places clear local matches tried
   * @param fit of the last round
   * @param share of clear local matches that agree
   * @param tried best guess of every orientation, best first
   */
  public record Found(
      CoarseSearch.Guess guess,
      PlaneTransform aToB,
      double pitchUm,
      Finest finest,
      int places,
      RobustMap fit,
      double share,
      List<CoarseSearch.Guess> tried) {}

  /** The two dies on one raster, and where both are seen; a class because of its arrays. */
  public static final class Finest {
    public final GrayRaster a;
    public final GrayRaster b;
    public final boolean[] seen;

    public Finest(GrayRaster a, GrayRaster b, boolean[] seen) {
      this.a = a;
      this.b = b;
      this.seen = seen;
    }
  }

  /** A guess after local matches. */
  private record Confirmed(
      CoarseSearch.Guess guess, PlaneTransform aToB, int places, RobustMap fit) {
    double share() {
      return places == 0 ? 0 : fit.agreeing().size() / (double) places;
    }

    /** Agreeing matches weigh by number and by share: a crop has few, a stranger a low share. */
    double worth() {
      return fit.agreeing().size() * share();
    }
  }

  public Registrar(ScaledDie a, ScaledDie b) {
    this.dieA = a;
    this.dieB = b;
    double area = Math.max(a.widthUm() * a.heightUm(), b.widthUm() * b.heightUm());
    this.pitch =
        Math.max(
            Math.max(FINEST_UM, Math.sqrt(area / MOST_PX)), Math.max(a.umPerPx(), b.umPerPx()));
    this.fineA = a.at(pitch);
    this.fineB = b.at(pitch);
    this.middle = Math.max(1, (int) Math.round(MIDDLE_UM / pitch));
    this.midA = Structure.reduced(fineA, middle);
    this.midB = Structure.reduced(fineB, middle);
    this.midStructureA = Structure.evened(midA, 0.6, 4, 12);
  }

  public Found find() {
    double side = Math.max(midA.width(), midA.height());
    int reduction = Math.max(2, (int) Math.round(side / 300));
    CoarseSearch search = new CoarseSearch(midA, midB, pitch * middle, reduction);
    List<CoarseSearch.Guess> guesses = search.guesses(likelyRatios());
    Confirmed best = confirmed(guesses);
    if (best.share() < 0.35 || best.fit().agreeing().size() < 12) {
      List<CoarseSearch.Guess> more = search.guesses(otherRatios());
      Confirmed other = confirmed(more);
      guesses = merged(guesses, more);
      best = other.worth() > best.worth() ? other : best;
    }
    for (int i = 0; i < 2; i++) {
      Confirmed again = middleRound(best.guess(), best.aToB());
      best = again.worth() >= 0.9 * best.worth() ? again : best;
    }
    return finestRounds(best, perOrientation(guesses));
  }

  /** As stated, and as the die edges say. */
  private List<Double> likelyRatios() {
    List<Double> out = new ArrayList<>(List.of(1.0));
    if (dieA.die().edgeFound() && dieB.die().edgeFound()) {
      double straight =
          Math.sqrt(dieB.widthUm() / dieA.widthUm() * dieB.heightUm() / dieA.heightUm());
      double most = bothScaled() ? 1.12 : 3;
      if (straight < most && straight > 1 / most && Math.abs(straight - 1) > 0.004) {
        out.add(straight);
      }
    }
    return out;
  }

  private List<Double> otherRatios() {
    List<Double> out = new ArrayList<>();
    int steps = bothScaled() ? 7 : 40;
    for (int i = -steps; i <= steps; i++) {
      if (i != 0) {
        out.add(Math.exp(0.015 * i));
      }
    }
    return out;
  }

  private boolean bothScaled() {
    return dieA.scaled() && dieB.scaled();
  }

  private static List<CoarseSearch.Guess> merged(
      List<CoarseSearch.Guess> a, List<CoarseSearch.Guess> b) {
    List<CoarseSearch.Guess> all = new ArrayList<>(a);
    all.addAll(b);
    all.sort(Comparator.comparingDouble(CoarseSearch.Guess::score).reversed());
    return all;
  }

  private static List<CoarseSearch.Guess> perOrientation(List<CoarseSearch.Guess> all) {
    List<CoarseSearch.Guess> out = new ArrayList<>();
    for (CoarseSearch.Guess g : all) {
      if (out.stream().noneMatch(o -> o.orientation() == g.orientation())) {
        out.add(g);
      }
    }
    return out;
  }

  private Confirmed confirmed(List<CoarseSearch.Guess> guesses) {
    Confirmed best = null;
    for (CoarseSearch.Guess g : guesses.subList(0, Math.min(GUESSES, guesses.size()))) {
      Confirmed c = middleRound(g, g.aToB());
      if (best == null || c.worth() > best.worth()) {
        best = c;
      }
      if (best.share() > 0.5 && best.fit().agreeing().size() >= 30) {
        break;
      }
    }
    return best;
  }

  private Confirmed middleRound(CoarseSearch.Guess guess, PlaneTransform aToB) {
    double p = pitch * middle;
    GrayRaster b = ImageFilters.warp(midB, inPx(aToB, p), midA.width(), midA.height());
    boolean[] seen = seen(aToB, p, midA.width(), midA.height());
    int step = step(midA, 24, 400);
    List<PatchMatch> all =
        PatchMatcher.match(
            midStructureA, Structure.evened(b, 0.6, 4, 12), 40, step, 10, seen, 0.35);
    return confirm(guess, aToB, p, clear(all), 1.5);
  }

  private static Confirmed confirm(
      CoarseSearch.Guess guess,
      PlaneTransform aToB,
      double p,
      List<PatchMatch> clear,
      double tolerance) {
    RobustMap fit = RobustMap.fit(clear, tolerance);
    return new Confirmed(guess, corrected(aToB, fit.map(), p), clear.size(), fit);
  }

  private static List<PatchMatch> clear(List<PatchMatch> all) {
    return all.stream()
        .filter(m -> m.score() >= LEAST_SCORE && m.clearness() >= LEAST_CLEARNESS)
        .toList();
  }

  private Found finestRounds(Confirmed start, List<CoarseSearch.Guess> tried) {
    Confirmed best = start;
    int step = step(fineA, 48, 500);
    GrayRaster[] both = {fineA, carried(best.aToB())};
    both = Structure.each(r -> Structure.evened(r, 1, 6, 16), both);
    for (int i = 0; i < 2; i++) {
      GrayRaster a = both[0];
      GrayRaster b = i == 0 ? both[1] : Structure.evened(carried(best.aToB()), 1, 6, 16);
      boolean[] seen = seen(best.aToB(), pitch, fineA.width(), fineA.height());
      List<PatchMatch> all = PatchMatcher.match(a, b, 64, step, i == 0 ? 8 : 5, seen, 0.3);
      best = confirm(best.guess(), best.aToB(), pitch, clear(all), i == 0 ? 3 : 2.5);
    }
    Finest finest =
        new Finest(
            fineA, carried(best.aToB()), seen(best.aToB(), pitch, fineA.width(), fineA.height()));
    return new Found(
        best.guess(), best.aToB(), pitch, finest, best.places(), best.fit(), best.share(), tried);
  }

  private GrayRaster carried(PlaneTransform aToB) {
    return ImageFilters.warp(fineB, inPx(aToB, pitch), fineA.width(), fineA.height());
  }

  /** Distance between patches that makes about so many. */
  private static int step(GrayRaster in, int least, int most) {
    return Math.max(least, (int) Math.sqrt((double) in.width() * in.height() / most));
  }

  private static PlaneTransform inPx(PlaneTransform um, double pitch) {
    return new PlaneTransform(um.a(), um.b(), um.c() / pitch, um.d(), um.e(), um.f() / pitch);
  }

  /** The local map says where things were found on the raster that the old map made. */
  private static PlaneTransform corrected(PlaneTransform aToB, PlaneTransform px, double pitch) {
    return new PlaneTransform(px.a(), px.b(), px.c() * pitch, px.d(), px.e(), px.f() * pitch)
        .then(aToB);
  }

  private boolean[] seen(PlaneTransform aToB, double p, int w, int h) {
    boolean[] out = new boolean[w * h];
    boolean wholeA = dieA.die().edgeFound();
    IntStream.range(0, h)
        .parallel()
        .forEach(
            y -> {
              for (int x = 0; x < w; x++) {
                double ux = (x + 0.5) * p;
                double uy = (y + 0.5) * p;
                out[y * w + x] =
                    (wholeA || dieA.seen(ux, uy)) && dieB.seen(aToB.x(ux, uy), aToB.y(ux, uy));
              }
            });
    return out;
  }
}
