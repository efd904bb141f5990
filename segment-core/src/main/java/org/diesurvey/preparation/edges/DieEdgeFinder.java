package org.diesurvey.preparation.edges;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import org.diesurvey.photo.PixelSource;

/**
 * Finds the dies against the ground: one die or several that are wholly in the picture, else one
 * that the picture cuts. Every rectangle is refined in the full photograph.
 */
public final class DieEdgeFinder {
  /** Cells along the longer side of the overview (own choice). */
  private static final int OVERVIEW_CELLS = 800;

  /** Blur that takes the grain out of a rough ground, cells of the halved overview. */
  private static final double GRAIN_CELLS = 2;

  private final PixelSource source;
  private final Overview overview;
  private final EdgeTuning tuning;

  /** Whole dies that stand out but whose edges are not straight enough, to be tried again. */
  private final List<Supplier<Optional<DieEdge>>> broken = new ArrayList<>();

  public DieEdgeFinder(PixelSource source, EdgeTuning tuning) {
    this(source, Overview.of(source, OVERVIEW_CELLS), tuning);
  }

  private DieEdgeFinder(PixelSource source, Overview overview, EdgeTuning tuning) {
    this.source = source;
    this.overview = overview;
    this.tuning = tuning;
  }

  /** All dies, none if no straight edges stand against a ground. */
  public List<DieEdge> find() {
    Background frame = new Background(overview, Background.candidates(overview).get(0));
    List<DieEdge> found = whole(frame, frame.rectangles(tuning.several(), Background.FINE), true);
    if (!found.isEmpty()) {
      return found;
    }
    List<Background> grounds = new ArrayList<>();
    Overview half = overview.halved();
    for (Overview o : List.of(half, half.blurred(GRAIN_CELLS))) {
      Background.candidates(o).forEach(c -> grounds.add(new Background(o, c)));
    }
    List<List<CoarseDieRectangle>> perGround = new ArrayList<>();
    for (Background g : grounds) {
      List<CoarseDieRectangle> some = g.rectangles(tuning.several(), Background.COARSE);
      perGround.add(some);
      found = whole(g, some, false);
      if (!found.isEmpty()) {
        return found;
      }
    }
    found = byHue();
    if (!found.isEmpty()) {
      return found;
    }
    for (Supplier<Optional<DieEdge>> b : broken) {
      Optional<DieEdge> e = b.get();
      if (e.isPresent()) {
        return List.of(e.get());
      }
    }
    for (int i = 0; i < grounds.size(); i++) {
      Optional<DieEdge> cut = cut(grounds.get(i), perGround.get(i));
      if (cut.isPresent()) {
        return List.of(cut.get());
      }
    }
    return List.of();
  }

  /** Whole dies on a ground that is even but for its brightness. */
  private List<DieEdge> byHue() {
    float[] frame = Background.candidates(overview).get(0);
    Overview rest = overview.colourRest(frame);
    DieEdgeFinder hue = new DieEdgeFinder(new ChromaResidual(source, frame), rest, tuning);
    Overview half = rest.halved();
    for (Overview o : List.of(half, half.blurred(GRAIN_CELLS))) {
      Background ground = new Background(o, Background.candidates(o).get(0));
      List<DieEdge> found =
          hue.whole(ground, ground.rectangles(tuning.several(), Background.COARSE), false);
      broken.addAll(hue.broken);
      hue.broken.clear();
      // Blocks have hues of their own: a small rectangle of another hue may be one.
      double area = found.stream().mapToDouble(e -> e.widthPx() * e.heightPx()).sum();
      if (area >= tuning.alone() * pixels()) {
        return found;
      }
    }
    return List.of();
  }

  /**
   * Dies with four edges on one ground, the straightest first.
   *
   * @param likely whether the ground is that of the whole frame, so that a large die needs no
   *     further check
   */
  private List<DieEdge> whole(Background ground, List<CoarseDieRectangle> rough, boolean likely) {
    EdgeRefiner refiner = new EdgeRefiner(source, overview, ground.colour(), tuning);
    CoarseDieRectangle main = null;
    for (CoarseDieRectangle r : rough) {
      boolean large = r.area() >= (likely ? tuning.alone() : tuning.checked()) * pixels();
      if (r.real().size() == 4 && large && (main == null || r.seen() > main.seen() + 0.02)) {
        main = r;
      }
    }
    List<CoarseDieRectangle> set = new ArrayList<>();
    if (main != null && (likely || stands(ground, List.of(main)))) {
      set.add(main);
    }
    List<CoarseDieRectangle> several = apart(set, rough);
    if (several.size() > 1 && stands(ground, several)) {
      List<DieEdge> edges = new ArrayList<>();
      several.forEach(r -> refiner.refine(r).ifPresent(edges::add));
      if (edges.size() > 1) {
        return edges;
      }
    }
    if (set.isEmpty()) {
      return List.of();
    }
    Optional<DieEdge> edge = refiner.refine(main);
    if (edge.isEmpty() && stands(ground, set) && set.get(0).area() >= tuning.alone() * pixels()) {
      broken.add(() -> refiner.refineBroken(set.get(0)));
    }
    return edge.map(List::of).orElse(List.of());
  }

  private boolean stands(Background ground, List<CoarseDieRectangle> dies) {
    return BackgroundCheck.stands(overview, ground.colour(), dies);
  }

  /** Rectangles with four edges that do not overlap, the straightest first, none much smaller. */
  private List<CoarseDieRectangle> apart(
      List<CoarseDieRectangle> first, List<CoarseDieRectangle> rough) {
    List<CoarseDieRectangle> out = new ArrayList<>(first);
    List<CoarseDieRectangle> sorted = new ArrayList<>(rough);
    sorted.sort(Comparator.comparingDouble((CoarseDieRectangle r) -> -r.seen()));
    for (CoarseDieRectangle r : sorted) {
      if (r.real().size() == 4 && out.stream().noneMatch(o -> o.overlaps(r))) {
        out.add(r);
      }
    }
    double largest = out.stream().mapToDouble(CoarseDieRectangle::area).max().orElse(0);
    out.removeIf(r -> r.area() < tuning.ofLargest() * largest);
    double together = out.stream().mapToDouble(CoarseDieRectangle::area).sum();
    return together >= tuning.checked() * pixels() ? out : List.of();
  }

  private Optional<DieEdge> cut(Background ground, List<CoarseDieRectangle> rough) {
    EdgeRefiner refiner = new EdgeRefiner(source, overview, ground.colour(), tuning);
    List<CoarseDieRectangle> cut =
        rough.stream()
            .filter(r -> r.real().size() < 4 && r.area() >= tuning.cut() * pixels())
            .sorted(
                Comparator.comparingInt((CoarseDieRectangle r) -> -r.real().size())
                    .thenComparingDouble(r -> -r.seen()))
            .toList();
    for (CoarseDieRectangle r : cut) {
      if (stands(ground, List.of(r))) {
        Optional<DieEdge> e = refiner.refine(r);
        if (e.isPresent()) {
          return e;
        }
      }
    }
    return Optional.empty();
  }

  private double pixels() {
    return (double) source.width() * source.height();
  }
}
