package org.diesurvey.comparison.changes;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.diesurvey.comparison.document.Change;
import org.diesurvey.comparison.document.RegionMatch;
import org.diesurvey.comparison.document.RegionMatch.Verdict;
import org.diesurvey.comparison.registration.OfBoth;
import org.diesurvey.comparison.tiles.DifferenceMap.State;
import org.diesurvey.comparison.tiles.TileClasses;
import org.diesurvey.comparison.tiles.TileComparison;
import org.diesurvey.survey.SurveyRegion;

/** Which regions of the two surveys stand for the same ground, by tiles. */
public final class RegionMatcher {
  /** Share of the smaller region that must be common. */
  private static final double COMMON = 0.5;

  /** Overlap from which two outlines are the same within the tiles and the surveys' noise. */
  private static final double SAME_OUTLINE = 0.8;

  private final TileComparison agreement;
  private final TileClasses a;
  private final TileClasses b;
  private final List<Change> changes;
  private final int[][] common;
  private final int[] sizeA;
  private final int[] sizeB;

  public RegionMatcher(
      TileComparison agreement, OfBoth<TileClasses> classes, List<Change> changes) {
    this.agreement = agreement;
    this.a = classes.first();
    this.b = classes.second();
    this.changes = changes;
    this.sizeA = new int[a.survey.regions().size()];
    this.sizeB = new int[b.survey.regions().size()];
    this.common = new int[sizeA.length][sizeB.length];
    for (int i = 0; i < agreement.state.length; i++) {
      int p = a.region[i];
      int q = b.region[i];
      if (p >= 0) {
        sizeA[p]++;
      }
      if (q >= 0) {
        sizeB[q]++;
      }
      if (p >= 0 && q >= 0) {
        common[p][q]++;
      }
    }
  }

  public List<RegionMatch> matches() {
    List<RegionMatch> out = new ArrayList<>();
    Set<Integer> doneA = new HashSet<>();
    Set<Integer> doneB = new HashSet<>();
    for (int p = 0; p < sizeA.length; p++) {
      if (doneA.contains(p) || damaged(a.survey.regions().get(p))) {
        continue;
      }
      // Regions that hang together by large common parts: one to one, split or merged.
      Set<Integer> left = new java.util.TreeSet<>(Set.of(p));
      Set<Integer> right = new java.util.TreeSet<>();
      boolean more = true;
      while (more) {
        more = false;
        for (int i = 0; i < sizeA.length; i++) {
          for (int k = 0; k < sizeB.length; k++) {
            boolean joined =
                common[i][k] > 0 && common[i][k] >= COMMON * Math.min(sizeA[i], sizeB[k]);
            if (joined && (left.contains(i) != right.contains(k)) && sameKind(i, k)) {
              more |= left.add(i) | right.add(k);
            }
          }
        }
      }
      doneA.addAll(left);
      doneB.addAll(right);
      out.add(match(left, right));
    }
    for (int k = 0; k < sizeB.length; k++) {
      if (!doneB.contains(k) && !damaged(b.survey.regions().get(k))) {
        out.add(match(Set.of(), Set.of(k)));
      }
    }
    return out;
  }

  private boolean sameKind(int i, int k) {
    return a.survey.regions().get(i).dieClass() == b.survey.regions().get(k).dieClass();
  }

  private static boolean damaged(SurveyRegion r) {
    return r.verdict().hidden();
  }

  private RegionMatch match(Set<Integer> left, Set<Integer> right) {
    int both = 0;
    int any = 0;
    int seen = 0;
    int judged = 0;
    double sum = 0;
    for (int i = 0; i < agreement.state.length; i++) {
      boolean inA = left.contains(a.region[i]);
      boolean inB = right.contains(b.region[i]);
      if (!inA && !inB) {
        continue;
      }
      any++;
      both += inA && inB ? 1 : 0;
      State s = State.values()[agreement.state[i]];
      seen += s != State.NOT_COMMON ? 1 : 0;
      if (s == State.SAME || s == State.DIFFERENT) {
        judged++;
        sum += agreement.similarity[i];
      }
    }
    List<String> idsA = left.stream().map(i -> a.survey.regions().get(i).id()).toList();
    List<String> idsB = right.stream().map(i -> b.survey.regions().get(i).id()).toList();
    Optional<String> change =
        changes.stream()
            .filter(
                c ->
                    c.a().regions().stream().anyMatch(idsA::contains)
                        || c.b().regions().stream().anyMatch(idsB::contains))
            .map(Change::id)
            .findFirst();
    double overlap = any == 0 ? 0 : both / (double) any;
    Verdict verdict;
    String note = "";
    if (change.isPresent()) {
      verdict = Verdict.CHANGED;
    } else if (seen < 0.5 * any) {
      verdict = Verdict.NOT_SEEN;
    } else if (judged < 0.3 * any || any == 0) {
      verdict = Verdict.NOT_JUDGED;
      note = "Too little structure, or hidden, to judge it.";
    } else if (overlap >= SAME_OUTLINE) {
      verdict = Verdict.UNCHANGED;
    } else {
      verdict = Verdict.JUDGED_DIFFERENTLY;
      note = "The two pictures agree here; only the surveys draw or name it differently.";
    }
    Optional<Double> similarity =
        judged == 0 ? Optional.empty() : Optional.of(Math.max(-1, Math.min(1, sum / judged)));
    return new RegionMatch(idsA, idsB, verdict, change, overlap, similarity, note);
  }
}
