package org.diesurvey.comparison.changes;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.diesurvey.classification.DieClass;
import org.diesurvey.comparison.document.ChangeKind;
import org.diesurvey.comparison.registration.OfBoth;
import org.diesurvey.comparison.tiles.DifferenceMap.State;
import org.diesurvey.comparison.tiles.TileClasses;
import org.diesurvey.comparison.tiles.TileComparison;
import org.diesurvey.comparison.tiles.TileSet;

/**
 * From tiles that differ to changes: moves are taken out first, what is left hangs together in
 * places, and each place is named by what the two surveys call its ground.
 */
public final class ChangeFinder {
  /** Fewest tiles of a place that is looked at, and of its shorter side. */
  private static final int LEAST_TILES = 14;

  private static final int LEAST_SIDE = 4;

  /**
   * Share of a small place that must show structure: a speck of dirt is wide by its window only.
   */
  private static final double LEAST_STRUCTURED = 0.2;

  private static final int SMALL_TILES = 80;

  /** Share of its bounding box that makes changed ground one box. */
  private static final double ONE_BOX = 0.8;

  /** Mean correlation of a moved block with itself at its new place. */
  private static final double LEAST_LIKENESS = 0.5;

  /** Log odds of a surely changed tile, and the share of them in a place that is looked at. */
  static final float SURE = 2;

  private static final double LEAST_SURE = 0.05;

  private final TileComparison agreement;
  private final OfBoth<TileClasses> classes;
  private final int columns;
  private final CandidateLooks looks;
  private final ChangeNamer namer;
  private final ChangeKindClassifier network;
  private final CandidateFigures figures;

  /**
   * @param network has the last word on what rules propose
   */
  public ChangeFinder(
      TileComparison agreement, OfBoth<TileClasses> classes, ChangeKindClassifier network) {
    this.looks = new CandidateLooks(agreement, classes);
    this.namer = new ChangeNamer(looks);
    this.network = network;
    this.figures = new CandidateFigures(looks);
    this.agreement = agreement;
    this.classes = classes;
    this.columns = agreement.tiles.columns;
  }

  /**
   * A change on the grid.
   *
   * @param kind what happened
   * @param classA ground in the first die; empty if unclear
   * @param classB ground in the second
   * @param inA tiles in the first die; null for new blocks
   * @param inB tiles in the second die; null where gone
   * @param move for moved blocks, else null
   */
  public record ChangeCandidate(
      ChangeKind kind,
      Optional<DieClass> classA,
      Optional<DieClass> classB,
      TileSet inA,
      TileSet inB,
      MoveFinder.Move move) {
    /** Its tiles in the first die, or where it is new in the second. */
    TileSet tiles() {
      return inA != null ? inA : inB;
    }

    /** All its tiles, in both dies. */
    TileSet ground() {
      return inA == null || inB == null || inA == inB ? tiles() : inA.with(inB);
    }

    /** Whether another place changed in the same way. */
    boolean like(ChangeCandidate other) {
      return kind == other.kind && classA.equals(other.classA) && classB.equals(other.classB);
    }

    /** The same change, no move, of other tiles. */
    ChangeCandidate over(TileSet all) {
      return new ChangeCandidate(
          kind, classA, classB, inA != null ? all : null, inB != null ? all : null, null);
    }
  }

  /**
   * A place that the network has confirmed.
   *
   * @param confidence probability that it changed in this way, 0 to 1
   */
  public record ConfirmedChange(ChangeCandidate place, double confidence) {
    /** Whether a move took its old or its new place from this one. */
    private boolean partOf(ChangeCandidate moved) {
      return moved.move() != null
          && (place.kind() == ChangeKind.GONE && place.inA() == moved.inA()
              || place.kind() == ChangeKind.NEW && place.inB() == moved.inB());
    }
  }

  /**
   * What the network makes of the proposals.
   *
   * @param grown whether the die changed its size: then what the pad ring covers is left out
   */
  public List<ConfirmedChange> find(double pitchUm, boolean grown) {
    List<ConfirmedChange> told = new ArrayList<>();
    for (ChangeCandidate p : proposals(pitchUm, grown)) {
      network
          .of(figures.of(p), p.kind())
          .ifPresent(v -> told.add(new ConfirmedChange(looks.as(p, v.kind()), v.confidence())));
    }
    return new CandidatePieces(columns)
        .together(
            namer.paired(told.stream().map(ConfirmedChange::place).toList()).stream()
                .map(p -> new ConfirmedChange(p, confidence(p, told)))
                .toList());
  }

  /** Of a move that was made of two places: that of the less certain one. */
  private static double confidence(ChangeCandidate p, List<ConfirmedChange> told) {
    return told.stream()
        .filter(t -> t.place() == p || t.partOf(p))
        .mapToDouble(ConfirmedChange::confidence)
        .min()
        .orElse(0);
  }

  /** Figures of a place for the network. */
  public float[] figures(ChangeCandidate place) {
    return figures.of(place);
  }

  /** Places that may have changed, with the kinds that rules give them. */
  public List<ChangeCandidate> proposals(double pitchUm, boolean grown) {
    boolean[] solid = agreement.is(State.DIFFERENT);
    for (int i = 0; i < solid.length; i++) {
      solid[i] &= !grown || !TileClasses.inRing(classes, i);
    }
    for (TileSet part : TileSet.parts(solid, columns)) {
      if (sure(part) < LEAST_SURE) {
        for (int i = 0; i < solid.length; i++) {
          solid[i] &= !part.mask()[i];
        }
      }
    }
    List<ChangeCandidate> out = new ArrayList<>();
    boolean[] explained = new boolean[solid.length];
    for (MoveFinder.Move m : new MoveFinder(agreement, pitchUm).find(solid)) {
      int dx = (int) Math.round(m.dx() / agreement.tiles.side);
      int dy = (int) Math.round(m.dy() / agreement.tiles.side);
      TileSet there = new TileSet(columns, m.tiles().shifted(dx, dy));
      if (m.similarity() >= LEAST_LIKENESS
          && looks.isBlock(m.tiles(), true)
          && looks.isBlock(there, false)
          && !looks.ofRing(m.tiles(), there, m.similarity())
          && !thin(m.tiles())
          && namer.leaves(m.tiles(), there)
          && (m.similarity() >= MovedGround.SURE_LIKENESS * agreement.typical
              || namer.sameBlock(m.tiles(), there, dx, dy))) {
        out.add(
            new ChangeCandidate(
                ChangeKind.MOVED,
                looks.blockClass(m.tiles(), true),
                looks.blockClass(there, false),
                m.tiles(),
                there,
                m));
        mark(explained, TileSet.grown(m.tiles().mask(), columns, 3));
        mark(explained, TileSet.grown(there.mask(), columns, 3));
      }
    }
    boolean[] left = new boolean[solid.length];
    for (int i = 0; i < left.length; i++) {
      left[i] = solid[i] && !explained[i];
    }
    left = TileSet.closed(left, columns, 1);
    List<ChangeCandidate> named = new ArrayList<>();
    for (TileSet whole : TileSet.parts(left, columns)) {
      named.addAll(oneOf(whole, named(whole)));
    }
    out.addAll(namer.pieces(namer.paired(named)));
    return out;
  }

  private List<ChangeCandidate> named(TileSet whole) {
    List<ChangeCandidate> out = new ArrayList<>();
    for (TileSet part : ChangeParts.of(whole, agreement.odds, columns)) {
      if (part.count() < LEAST_TILES || thin(part) || !structured(part)) {
        continue;
      }
      for (ChangeCandidate p : namer.joined(namer.places(part, LEAST_TILES))) {
        if (!thin(p.tiles()) && sure(part) >= LEAST_SURE) {
          out.add(p);
        }
      }
    }
    return out;
  }

  /** Parts of one box that all changed the same way are one change. */
  private static List<ChangeCandidate> oneOf(TileSet whole, List<ChangeCandidate> parts) {
    if (parts.size() < 2 || whole.fill() < ONE_BOX) {
      return parts;
    }
    ChangeCandidate first = parts.get(0);
    boolean shaped = first.kind() == ChangeKind.MOVED || first.kind() == ChangeKind.RESIZED;
    return shaped || !parts.stream().allMatch(first::like) ? parts : List.of(first.over(whole));
  }

  private double sure(TileSet part) {
    return part.share(i -> agreement.odds[i] > SURE);
  }

  private boolean structured(TileSet part) {
    int n = 0;
    for (int i = 0; i < part.mask().length; i++) {
      n += part.mask()[i] && agreement.evidence.structured[i] ? 1 : 0;
    }
    return part.count() >= SMALL_TILES || n >= LEAST_STRUCTURED * part.count();
  }

  /** A scratch or an edge of residue is long but narrow. */
  private boolean thin(TileSet part) {
    int shorter = Math.min(part.right() - part.left(), part.bottom() - part.top());
    boolean[] core = TileSet.shrunk(part.mask(), columns, 1);
    for (boolean b : core) {
      if (b) {
        return shorter < LEAST_SIDE;
      }
    }
    return true;
  }

  private static void mark(boolean[] to, boolean[] from) {
    for (int i = 0; i < to.length; i++) {
      to[i] |= from[i];
    }
  }

  /** The most frequent class; empty where that is none. */
  static Optional<DieClass> main(TileClasses classes, boolean[] mask) {
    int[] counts = new int[DieClass.values().length];
    for (int i = 0; i < mask.length; i++) {
      if (mask[i]) {
        counts[classes.at(i).ordinal()]++;
      }
    }
    int best = DieClass.UNCLEAR.ordinal();
    for (DieClass c : DieClass.values()) {
      if (c != DieClass.UNCLEAR && counts[c.ordinal()] > 0) {
        if (best == DieClass.UNCLEAR.ordinal() || counts[c.ordinal()] > counts[best]) {
          best = c.ordinal();
        }
      }
    }
    DieClass c = DieClass.values()[best];
    return c == DieClass.UNCLEAR ? Optional.empty() : Optional.of(c);
  }
}
