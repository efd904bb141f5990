package org.diesurvey.pipeline;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Function;
import java.util.stream.Stream;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.classification.DieClass;
import org.diesurvey.classification.UnclearReason;
import org.diesurvey.classification.model.TileClassifier;
import org.diesurvey.features.DominantPeriods;
import org.diesurvey.features.FeatureTable;
import org.diesurvey.measures.AreaUncertainty;
import org.diesurvey.measures.RegionMeasures;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.photo.Levels;
import org.diesurvey.preparation.LevelStep;
import org.diesurvey.preparation.PreparedDie;
import org.diesurvey.preparation.ReadingSteps;
import org.diesurvey.quantity.Measured;
import org.diesurvey.raster.PixelPoint;
import org.diesurvey.regions.DamagedPlaces;
import org.diesurvey.regions.DieRegion;
import org.diesurvey.regions.ring.BondPads;
import org.diesurvey.survey.BondPadCount;
import org.diesurvey.survey.ClassTotal;
import org.diesurvey.survey.ClassVerdict;
import org.diesurvey.survey.DieFrame;
import org.diesurvey.survey.MemoryParts;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.PadCounting;
import org.diesurvey.survey.Period;
import org.diesurvey.survey.Point;
import org.diesurvey.survey.Preparation;
import org.diesurvey.survey.RegionArea;
import org.diesurvey.survey.RegionShape;
import org.diesurvey.survey.ScaleRecord;
import org.diesurvey.survey.Software;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.SurveyMethod;
import org.diesurvey.survey.SurveyRegion;
import org.diesurvey.tiles.TileGrid;
import org.locationtech.jts.geom.Polygon;

/** Puts measured regions and everything known of the photograph into one survey. */
final class SurveyAssembler {
  /**
   * Blocks closer than this are neighbours, um: moats between blocks are narrower (common practice,
   * no source).
   */
  private static final double NEIGHBOUR_UM = 24;

  private final DiePhoto photo;
  private final ChosenDie chosen;
  private final PreparedDie die;
  private final TileGrid grid;
  private final FeatureTable features;
  private final Optional<Calibration> calibration;
  private final Optional<ScaleRecord.InferredRange> inferred;
  private final DieGeometry geometry;
  private final FinePatterns patterns;

  SurveyAssembler(
      DiePhoto photo,
      ChosenDie chosen,
      PreparedDie die,
      TileGrid grid,
      FeatureTable features,
      Optional<Calibration> calibration,
      Optional<ScaleRecord.InferredRange> inferred) {
    this.photo = photo;
    this.chosen = chosen;
    this.die = die;
    this.grid = grid;
    this.features = features;
    this.calibration = calibration;
    this.inferred = inferred;
    this.patterns = FinePatterns.of(photo, die, calibration);
    this.geometry = new DieGeometry(die, grid.pitchUm());
  }

  Survey assemble(
      List<DieRegion> found,
      TileClassifier classifier,
      SegmentSettings settings,
      PhotoOptions options) {
    return assemble(
        found,
        ids(found),
        new Software(
            "Diesurvey", classifier.softwareVersion(), classifier.name(), classifier.sha256()),
        settings,
        options);
  }

  /** With ids given and software named: for outlines that no classifier made. */
  Survey assemble(
      List<DieRegion> found,
      List<String> ids,
      Software software,
      SegmentSettings settings,
      PhotoOptions options) {
    DieFrame frame = frame();
    List<SurveyRegion> regions = new ArrayList<>();
    for (int i = 0; i < found.size(); i++) {
      regions.add(region(found, ids, i, frame));
    }
    Preparation preparation = preparation(found, frame, options);
    return new Survey(
        photo.info(),
        new SurveyMethod(software, die.bin(), settings.nodeNm(), grid.tileUm()),
        new ScaleRecord(calibration, inferred),
        frame,
        preparation,
        regions,
        totals(found, frame),
        Notices.of(
            photo,
            levels(options),
            die,
            calibration,
            inferred,
            chosen,
            preparation.damagedShare(),
            grid,
            found),
        Optional.empty());
  }

  private Preparation preparation(List<DieRegion> found, DieFrame frame, PhotoOptions options) {
    List<Preparation.DamageShare> damage =
        DamageShares.of(found, features.damage(), grid, frame.areaPx() / photoPx());
    return new Preparation(
        Stream.of(
                ReadingSteps.of(photo.reading()),
                LevelStep.of(levels(options)).stream().toList(),
                die.steps())
            .flatMap(List::stream)
            .toList(),
        chosen.all().dies().size(),
        chosen.number(),
        options
            .flatField()
            .map(f -> new Preparation.FlatFieldFile(f.info().fileName(), f.info().sha256())),
        damage,
        damage.stream().mapToDouble(Preparation.DamageShare::shareOfDie).sum());
  }

  private Levels levels(PhotoOptions options) {
    return options.flatField().isPresent() ? photo.levels().unspread() : photo.levels();
  }

  /** Square photo pixels in one square pixel of the upright raster. */
  private double photoPx() {
    return (double) die.bin() * die.bin();
  }

  private DieFrame frame() {
    List<PixelPoint> c = die.corners();
    List<Point> outline = new ArrayList<>();
    for (int i : new int[] {3, 2, 1, 0}) {
      outline.add(
          new Point(Math.rint(c.get(i).x() * 100) / 100, Math.rint(c.get(i).y() * 100) / 100));
    }
    double w = die.frame().widthPx();
    double h = die.frame().heightPx();
    // The frame of a photograph is known exactly.
    double edge = die.frame().realEdges().isEmpty() ? 0 : die.edgeUncertaintyPx();
    double areaPx = die.frame().visibleAreaPx(die.source().width(), die.source().height());
    Optional<Measured> width = calibration.map(k -> AreaUncertainty.lengthMm(w, edge, k.umPerPx()));
    Optional<Measured> height =
        calibration.map(k -> AreaUncertainty.lengthMm(h, edge, k.umPerPx()));
    Optional<Measured> area =
        calibration.map(
            k ->
                AreaUncertainty.ofCountMm2(
                        new Measured(areaPx, Math.hypot(w, h) * edge * Math.sqrt(2)), k.umPerPx())
                    .joined());
    return new DieFrame(
        die.frame().realEdges(), outline, die.rotationDeg(), width, height, area, areaPx);
  }

  private static List<String> ids(List<DieRegion> found) {
    Map<DieClass, Integer> count = new EnumMap<>(DieClass.class);
    List<String> ids = new ArrayList<>();
    for (DieRegion r : found) {
      int n = count.merge(r.dieClass(), 1, Integer::sum);
      ids.add(r.dieClass().shortName() + n);
    }
    return ids;
  }

  private SurveyRegion region(List<DieRegion> found, List<String> ids, int i, DieFrame frame) {
    DieRegion r = found.get(i);
    double areaPx = r.outline().getArea() * photoPx();
    List<Period> periods = periods(r);
    return new SurveyRegion(
        ids.get(i),
        new ClassVerdict(r.dieClass(), r.reason(), r.confidence(), r.probabilities()),
        shape(r, geometry::inPhoto),
        calibration.map(k -> shape(r, geometry::inDie)),
        new RegionArea(
            areaPx,
            calibration.map(
                k -> RegionMeasures.areaMm2(r.outline(), r.dieClass(), workingPitch(k))),
            areaPx / frame.areaPx(),
            memoryParts(r)),
        periods,
        patterns.of(r.dieClass(), periods),
        neighbours(found, ids, i),
        r.bondPads().map(b -> new BondPadCount(b.count(), Optional.of(padCounting(b)))));
  }

  private static RegionShape shape(DieRegion r, Function<Polygon, Outline> frame) {
    return new RegionShape(frame.apply(r.outline()), r.arrays().stream().map(frame).toList());
  }

  private PadCounting padCounting(BondPads b) {
    return new PadCounting(
        b.seen(),
        b.standardUncertainty(),
        calibration.isPresent() && b.pitchPx() > 0
            ? OptionalDouble.of(b.pitchPx() * workingPitch(calibration.get()).value())
            : OptionalDouble.empty());
  }

  private Optional<MemoryParts> memoryParts(DieRegion r) {
    return r.dieClass() != DieClass.MEMORY_ARRAY || r.arrays().isEmpty()
        ? Optional.empty()
        : calibration.map(
            k ->
                new MemoryParts(
                    RegionMeasures.totalMm2(r.arrays(), r.dieClass(), workingPitch(k)).joined(),
                    RegionMeasures.restMm2(r.outline(), r.arrays(), r.dieClass(), workingPitch(k))
                        .joined()));
  }

  /** Pitch of the upright raster with its uncertainty. */
  private Measured workingPitch(Calibration k) {
    return k.umPerPx().times(die.bin());
  }

  private List<Period> periods(DieRegion r) {
    if (r.dieClass() != DieClass.MEMORY_ARRAY && r.dieClass() != DieClass.LOGIC) {
      return List.of();
    }
    List<Polygon> where = r.arrays().isEmpty() ? List.of(r.outline()) : r.arrays();
    int[] inside = RegionTiles.in(where, grid);
    if (inside.length < 4) {
      return List.of();
    }
    double unit = calibration.isPresent() ? grid.pitchUm() : die.bin();
    double scale = calibration.map(k -> k.umPerPx().relativeUncertainty()).orElse(0.0);
    List<Period> out = new ArrayList<>();
    for (DominantPeriods.Found f : features.periods(inside)) {
      double length = f.lengthPx() * unit;
      double u = Math.hypot(f.uncertaintyPx() * unit, length * scale);
      out.add(new Period(new Measured(length, u), f.alongX() ? 0 : 90, f.strength()));
    }
    return out;
  }

  private List<String> neighbours(List<DieRegion> found, List<String> ids, int i) {
    double reach = NEIGHBOUR_UM / grid.pitchUm();
    List<String> out = new ArrayList<>();
    if (damaged(found.get(i))) {
      return out;
    }
    for (int k = 0; k < found.size(); k++) {
      if (k != i
          && !damaged(found.get(k))
          && found.get(i).outline().isWithinDistance(found.get(k).outline(), reach)) {
        out.add(ids.get(k));
      }
    }
    return out;
  }

  /** Damage is no block, so it is nobody's neighbour. */
  private static boolean damaged(DieRegion r) {
    return DamagedPlaces.hides(r);
  }

  private List<ClassTotal> totals(List<DieRegion> found, DieFrame frame) {
    List<ClassTotal> out = new ArrayList<>();
    for (DieClass c : DieClass.values()) {
      if (c == DieClass.OFF_DIE) {
        continue;
      }
      Map<Optional<UnclearReason>, List<DieRegion>> byReason = new java.util.LinkedHashMap<>();
      for (DieRegion r : found) {
        if (r.dieClass() == c) {
          byReason.computeIfAbsent(r.reason(), k -> new ArrayList<>()).add(r);
        }
      }
      byReason.forEach((reason, list) -> out.add(total(c, reason, list, frame)));
    }
    return out;
  }

  private ClassTotal total(
      DieClass c, Optional<UnclearReason> reason, List<DieRegion> list, DieFrame frame) {
    double areaPx = 0;
    List<Polygon> outlines = new ArrayList<>();
    for (DieRegion r : list) {
      areaPx += r.outline().getArea() * photoPx();
      outlines.add(r.outline());
    }
    return new ClassTotal(
        c,
        reason,
        list.size(),
        calibration.map(k -> RegionMeasures.totalMm2(outlines, c, workingPitch(k))),
        areaPx / frame.areaPx());
  }
}
