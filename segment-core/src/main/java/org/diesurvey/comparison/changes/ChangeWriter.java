package org.diesurvey.comparison.changes;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.TreeSet;
import org.diesurvey.classification.DieClass;
import org.diesurvey.comparison.document.Change;
import org.diesurvey.comparison.document.ChangeKind;
import org.diesurvey.comparison.document.DifferenceSummary;
import org.diesurvey.comparison.document.LengthUnit;
import org.diesurvey.comparison.document.Registration;
import org.diesurvey.comparison.registration.Frames;
import org.diesurvey.comparison.registration.OfBoth;
import org.diesurvey.comparison.tiles.DifferenceMap.State;
import org.diesurvey.comparison.tiles.Outlines;
import org.diesurvey.comparison.tiles.TileClasses;
import org.diesurvey.comparison.tiles.TileComparison;
import org.diesurvey.comparison.tiles.TileSet;
import org.diesurvey.preparation.edges.DieSide;
import org.diesurvey.quantity.Measured;
import org.diesurvey.raster.Axis;
import org.diesurvey.raster.PlaneTransform;
import org.diesurvey.survey.Outline;

/** Gives changes on the grid their sizes, uncertainties, outlines and words. */
public final class ChangeWriter {
  /**
   * Standard uncertainty of a side that tiles give, in tiles: uniform within half a tile would give
   * 0.29, the windows of three tiles widen it.
   */
  private static final double SIDE_TILES = 0.6;

  /** Changes below so many standard uncertainties are not told from noise. */
  private static final double SIGNIFICANT = 3;

  private final Frames frames;
  private final TileComparison agreement;
  private final OfBoth<TileClasses> classes;
  private final Registration registration;
  private final double scaleRelative;
  private final double tile;
  private final PlaneTransform fromGrid;

  public ChangeWriter(
      Frames frames,
      TileComparison agreement,
      OfBoth<TileClasses> classes,
      Registration registration) {
    this.frames = frames;
    this.agreement = agreement;
    this.classes = classes;
    this.registration = registration;
    this.scaleRelative =
        classes
            .first()
            .survey
            .scale()
            .calibration()
            .map(c -> c.umPerPx().relativeUncertainty())
            .orElse(0.0);
    this.tile = agreement.tileUm * frames.perUm();
    this.fromGrid = frames.documentFromGrid(agreement.tileUm);
  }

  public List<Change> changes(List<ChangeFinder.ConfirmedChange> told, boolean grown) {
    List<Change> all = new ArrayList<>();
    for (ChangeFinder.ConfirmedChange t : told) {
      ChangeFinder.ChangeCandidate p = t.place();
      if (grown && (isRing(p.classA()) || isRing(p.classB()))) {
        continue;
      }
      Change c = change(p, t.confidence());
      if (c.size().significance() >= SIGNIFICANT) {
        all.add(c);
      }
    }
    all.sort(
        Comparator.comparingDouble((Change c) -> c.size().significance())
            .reversed()
            .thenComparing(c -> -Math.abs(c.size().amount().value())));
    List<Change> out = new ArrayList<>();
    for (Change c : all) {
      out.add(c.withId("C" + (out.size() + 1)));
    }
    return out;
  }

  private static boolean isRing(Optional<DieClass> c) {
    return c.filter(DieClass.PAD_RING::equals).isPresent();
  }

  private Change change(ChangeFinder.ChangeCandidate p, double confidence) {
    Optional<Change.Shift> shift = Optional.empty();
    List<Change.SideMove> sides = List.of();
    Measured size;
    Change.Measure measure;
    if (p.move() != null) {
      double dx = p.move().dx() * tile / agreement.tiles.side;
      double dy = p.move().dy() * tile / agreement.tiles.side;
      shift = Optional.of(new Change.Shift(length(dx), length(-dy)));
      size = length(Math.hypot(dx, dy));
      measure = Change.Measure.DISTANCE;
    } else if (p.kind() == ChangeKind.RESIZED) {
      sides = sides(p);
      size = areaChange(p, sides);
      measure = Change.Measure.AREA_CHANGE;
    } else {
      TileSet t = p.tiles();
      size = area(t);
      measure = Change.Measure.AREA;
    }
    double significance =
        size.standardUncertainty() == 0
            ? 1000
            : Math.min(1000, Math.abs(size.value()) / size.standardUncertainty());
    return new Change(
        "",
        p.kind(),
        new Change.Side(p.classA(), regions(classes.first(), p.inA()), outlines(p.inA())),
        new Change.Side(p.classB(), regions(classes.second(), p.inB()), outlines(p.inB())),
        new Change.Size(size, measure, significance),
        new Change.Displacement(shift, sides),
        similarity(p),
        confidence,
        sentence(p, size, shift));
  }

  private Measured length(double v) {
    double pixel = 0.1 * tile / agreement.tiles.side;
    double u =
        Math.sqrt(
            Math.pow(registration.fit().residual(), 2)
                + pixel * pixel
                + Math.pow(v * scaleRelative, 2));
    return new Measured(v, u);
  }

  private Measured area(TileSet t) {
    double w = (t.right() - t.left()) * tile;
    double h = (t.bottom() - t.top()) * tile;
    double a = t.fill() >= 0.7 ? w * h : t.count() * tile * tile;
    double side = SIDE_TILES * tile;
    double u =
        Math.sqrt(
            2 * Math.pow(side * w, 2)
                + 2 * Math.pow(side * h, 2)
                + Math.pow(2 * scaleRelative * a, 2));
    return new Measured(a, u);
  }

  /** Sides of the block tiles in both dies; empty where the place is a piece of a block. */
  private List<Change.SideMove> sides(ChangeFinder.ChangeCandidate p) {
    if (p.inA() == p.inB()) {
      return List.of();
    }
    List<Change.SideMove> out = new ArrayList<>();
    side(out, DieSide.LEFT, p.inA().left() - p.inB().left());
    side(out, DieSide.RIGHT, p.inB().right() - p.inA().right());
    side(out, DieSide.LOWER, p.inB().bottom() - p.inA().bottom());
    side(out, DieSide.UPPER, p.inA().top() - p.inB().top());
    return out;
  }

  private void side(List<Change.SideMove> out, DieSide side, int tiles) {
    if (Math.abs(tiles) > 2) {
      double v = tiles * tile;
      out.add(
          new Change.SideMove(
              side,
              new Measured(v, Math.hypot(SIDE_TILES * Math.sqrt(2) * tile, v * scaleRelative))));
    }
  }

  private Measured areaChange(ChangeFinder.ChangeCandidate p, List<Change.SideMove> sides) {
    if (!sides.isEmpty()) {
      // Only the sides that moved are uncertain: the others are the same in both.
      double u = 0;
      for (Change.SideMove s : sides) {
        boolean upright = s.side().along() == Axis.Y;
        TileSet t = p.inB();
        double length = (upright ? t.bottom() - t.top() : t.right() - t.left()) * tile;
        u = Math.hypot(u, length * s.outward().standardUncertainty());
      }
      return new Measured(area(p.inB()).value() - area(p.inA()).value(), u);
    }
    Measured a = area(p.inA());
    boolean shrank = p.classA().filter(TileClasses::isBlock).isPresent();
    return shrank ? a.times(-1) : a;
  }

  private static List<String> regions(TileClasses classes, TileSet t) {
    if (t == null) {
      return List.of();
    }
    int[] counts = new int[classes.survey.regions().size()];
    for (int i = 0; i < t.mask().length; i++) {
      if (t.mask()[i] && classes.region[i] >= 0) {
        counts[classes.region[i]]++;
      }
    }
    List<String> out = new ArrayList<>(new TreeSet<>());
    for (int i = 0; i < counts.length; i++) {
      if (counts[i] >= Math.max(3, 0.2 * t.count())) {
        out.add(classes.survey.regions().get(i).id());
      }
    }
    return out;
  }

  private List<Outline> outlines(TileSet t) {
    return t == null ? List.of() : Outlines.of(t, fromGrid);
  }

  private Optional<Double> similarity(ChangeFinder.ChangeCandidate p) {
    if (p.move() != null) {
      return Optional.of(p.move().similarity());
    }
    TileSet t = p.tiles();
    double sum = 0;
    for (int i = 0; i < t.mask().length; i++) {
      sum += t.mask()[i] ? agreement.similarity[i] : 0;
    }
    return Optional.of(Math.max(-1, Math.min(1, sum / Math.max(1, t.count()))));
  }

  private String sentence(
      ChangeFinder.ChangeCandidate p, Measured size, Optional<Change.Shift> shift) {
    String unit = frames.unit().symbol();
    String a = p.classA().map(DieClass::label).orElse("ground without a class");
    String b = p.classB().map(DieClass::label).orElse("ground without a class");
    String area = area(size);
    return switch (p.kind()) {
      case MOVED ->
          String.format(
              Locale.ROOT,
              "A block (%s) moved by %.1f \u00b1 %.1f %s: %.1f to the %s, %.1f %s.",
              b,
              size.value(),
              size.standardUncertainty(),
              unit.replace("um", "\u00b5m"),
              Math.abs(shift.get().right().value()),
              shift.get().right().value() < 0 ? "left" : "right",
              Math.abs(shift.get().up().value()),
              shift.get().up().value() < 0 ? "down" : "up");
      case RESIZED ->
          "A block ("
              + (p.classA().filter(TileClasses::isBlock).isPresent() ? a : b)
              + ") became "
              + (size.value() < 0 ? "smaller" : "larger")
              + " by "
              + area
              + ".";
      case CLASS -> "A block changed from " + a + " to " + b + ", " + area + ".";
      case TEXTURE -> "Other content in the same place (" + b + "), " + area + ".";
      case NEW -> "A block (" + b + ") is new where " + a + " was, " + area + ".";
      case GONE -> "A block (" + a + ") is gone; " + b + " is there now, " + area + ".";
    };
  }

  /** Areas in mm2 as everywhere, both figures to the place of the uncertainty's second digit. */
  private String area(Measured size) {
    double u = Math.max(1, size.standardUncertainty());
    if (frames.unit() == LengthUnit.UM) {
      int decimals = Math.max(0, 7 - (int) Math.floor(StrictMath.log10(u)));
      String form = "%." + decimals + "f \u00b1 %." + decimals + "f mm\u00b2";
      return String.format(Locale.ROOT, form, Math.abs(size.value()) / 1e6, u / 1e6);
    }
    double step = Math.max(1, StrictMath.pow(10, Math.floor(StrictMath.log10(u)) - 1));
    return String.format(
        Locale.ROOT,
        "%.0f \u00b1 %.0f px\u00b2",
        Math.rint(Math.abs(size.value()) / step) * step,
        Math.rint(u / step) * step);
  }

  public DifferenceSummary summary() {
    double n = agreement.state.length;
    int[] counts = new int[State.values().length];
    for (byte s : agreement.state) {
      counts[s]++;
    }
    return new DifferenceSummary(
        tile,
        counts[State.SAME.ordinal()] / n,
        counts[State.DIFFERENT.ordinal()] / n,
        counts[State.NOT_JUDGED.ordinal()] / n,
        counts[State.NOT_COMMON.ordinal()] / n,
        agreement.typical,
        0.5);
  }
}
