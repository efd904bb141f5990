package org.diesurvey.pipeline;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.diesurvey.TunedValue;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.survey.Notice;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.json.SurveyJson;
import org.diesurvey.synthetic.DieDrawing;
import org.diesurvey.synthetic.DieFiles;
import org.diesurvey.synthetic.DrawOptions;
import org.diesurvey.synthetic.DrawOptions.Framing;
import org.diesurvey.synthetic.DrawOptions.Style;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Every value does something, on small drawn dies, and is named once. */
class TuningTest {
  /**
   * Values that change nothing on these dies, where what they decide does not occur; that they
   * count is seen in EdgeTuningTest, CoreLabellingTest, WeakPatchesTest, ObliqueStripsTest and
   * FlatPlatesTest.
   */
  private static final Set<String> ELSEWHERE =
      Set.of(
          "edges.alone",
          "edges.checked",
          "edges.cut",
          "edges.several",
          "edges.ofLargest",
          "edges.seen",
          "edges.strange",
          "regions.memories.surelyMemory",
          "regions.memories.holes",
          "regions.macros.leastUm2",
          "regions.macros.plateStep",
          "regions.patches.thinUm",
          "regions.patches.stripTiles");

  /** Small dies, chosen so that each value counts on one of them. */
  private enum Die {
    SPARSE(22, 1, 0.5, Framing.WHOLE_DIE, Style.SPARSE, 1.5, true),
    WIDE(24, 1, 0.5, Framing.WHOLE_DIE, Style.WIDE, 1, true),
    FIELD(5, 1, 0.3, Framing.FIELD, Style.WIDE, 1, true),
    WITHOUT_SCALE(11, 0.8, 0.8, Framing.WHOLE_DIE, Style.SHOWPIECE, 1, false);

    private final long seed;
    private final DrawOptions options;
    private final ScaleInput scale;

    Die(
        long seed,
        double umPerPx,
        double megapixels,
        Framing framing,
        Style style,
        double severity,
        boolean known) {
      this.seed = seed;
      this.options =
          DrawOptions.defaults()
              .withUmPerPx(umPerPx)
              .withMaxMegapixels(megapixels)
              .withFraming(framing)
              .withStyle(style)
              .withSeverity(severity);
      this.scale =
          known ? new ScaleInput.Known(Calibration.ofPixelPitch(umPerPx, 0)) : ScaleInput.NONE;
    }
  }

  private record Read(DiePhoto photo, RetunedSurveys surveys, Survey ordinary) {}

  @TempDir private static Path folder;

  private static final DieSegmenter SEGMENTER =
      DieSegmenter.withDefaults().with(SegmentSettings.defaults().withThreads(2));

  private static final Map<Die, Read> READ = new EnumMap<>(Die.class);

  private static Read read(Die die) {
    return READ.computeIfAbsent(
        die,
        d -> {
          try {
            Path file =
                DieFiles.write(
                    DieDrawing.draw(d.seed, d.options), folder, d.name(), DieFiles.Format.PNG);
            DiePhoto photo = DiePhoto.open(file);
            RetunedSurveys surveys = RetunedSurveys.of(SEGMENTER, photo, d.scale);
            return new Read(photo, surveys, surveys.survey(Tuning.DEFAULT));
          } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
          }
        });
  }

  @AfterAll
  static void close() {
    for (Read r : READ.values()) {
      r.surveys.close();
      r.photo.close();
    }
    READ.clear();
  }

  static Stream<String> names() {
    return Tuning.DEFAULT.values().stream().map(TunedValue::name);
  }

  private static TunedValue<Tuning> value(String name) {
    return Tuning.DEFAULT.values().stream()
        .filter(v -> v.name().equals(name))
        .findFirst()
        .orElseThrow();
  }

  @Test
  void names_areUnique_andTellUnitAndChoice() {
    List<TunedValue<Tuning>> all = Tuning.DEFAULT.values();
    assertEquals(all.size(), new HashSet<>(names().toList()).size());
    for (TunedValue<Tuning> v : all) {
      assertFalse(v.unit().isBlank() || v.chosenOn().isBlank(), v.name());
    }
    assertTrue(names().toList().containsAll(ELSEWHERE));
  }

  @ParameterizedTest
  @MethodSource("names")
  void aValueMultiplied_isTheOnlyOneThatChanges(String name) {
    for (double factor : new double[] {0.8, 1.2}) {
      List<String> changed = new ArrayList<>();
      List<TunedValue<Tuning>> now = value(name).times(factor).values();
      List<TunedValue<Tuning>> before = Tuning.DEFAULT.values();
      for (int i = 0; i < now.size(); i++) {
        if (now.get(i).value() != before.get(i).value()) {
          changed.add(now.get(i).name());
          assertEquals(value(name).multiplied(factor), now.get(i).value(), 0);
        }
      }
      assertEquals(List.of(name), changed);
    }
  }

  /** A fifth of 7 tiles is rounded; of 2 tiles it is one at least. */
  @Test
  void tiles_areWhole_andChangeByOneAtLeast() {
    TunedValue<Double> seven = new TunedValue<>("n", TunedValue.TILES, 7, "", v -> v);
    assertEquals(6, seven.times(0.8), 0);
    assertEquals(8, seven.times(1.2), 0);
    assertEquals(7, seven.times(1), 0);
    TunedValue<Double> two = new TunedValue<>("n", TunedValue.TILES, 2, "", v -> v);
    assertEquals(1, two.times(0.8), 0);
    assertEquals(3, two.times(1.2), 0);
    assertThrows(IllegalArgumentException.class, () -> value("damage.beyond").times(-1));
  }

  @ParameterizedTest
  @MethodSource("names")
  void everyValue_changesASurvey(String name) {
    if (ELSEWHERE.contains(name)) {
      return;
    }
    for (Die die : Die.values()) {
      for (double factor : new double[] {0.2, 1.2}) {
        Survey tuned = read(die).surveys.survey(value(name).times(factor));
        if (!tuned.regions().equals(read(die).ordinary.regions())) {
          return;
        }
      }
    }
    throw new AssertionError(name + " changes nothing");
  }

  @Test
  void anotherTuning_isSaid_andTheOrdinaryOneIsNot() {
    Tuning other = value("damage.beyond").times(2);
    assertEquals("damage.beyond 1.4", SEGMENTER.with(other).identity().get("tuning"));
    assertFalse(SEGMENTER.identity().containsKey("tuning"));
    assertEquals(SEGMENTER.identity(), SEGMENTER.with(Tuning.DEFAULT).identity());
    Read field = read(Die.FIELD);
    List<Notice> said = field.surveys.survey(other).notices();
    assertTrue(
        said.stream()
            .anyMatch(
                n -> n.id().equals("other-tuning") && n.sentence().contains("damage.beyond 1.4")));
    assertTrue(field.ordinary.notices().stream().noneMatch(n -> n.id().equals("other-tuning")));
  }

  /** Other values leave no trace in what is read once. */
  @Test
  void ordinaryValues_giveTheBytesOfAnOrdinarySurvey() {
    Read field = read(Die.FIELD);
    field.surveys.survey(value("regions.patches.sure").times(0.2));
    field.surveys.survey(value("damage.beyond").times(0.2));
    Survey ordinary = SEGMENTER.segment(field.photo, Calibration.ofPixelPitch(1, 0));
    assertArrayEquals(
        SurveyJson.write(ordinary, Optional.empty()),
        SurveyJson.write(field.surveys.survey(Tuning.DEFAULT), Optional.empty()));
  }
}
