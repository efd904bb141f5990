package org.diesurvey.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.diesurvey.files.EndedRun;
import org.diesurvey.files.WholeFolder;
import org.diesurvey.synthetic.MicrometerDrawing;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * What a call leaves that is ended before or after any single step of the disk: once the next call
 * or archive check has made order, the old result or the new one, whole, and everything that is
 * somebody's.
 */
class EndedCallsTest {
  private static final Map<String, String> DATE = Map.of("SOURCE_DATE_EPOCH", "1000000000");
  private static final String MINE = "die.corrected.geojson";

  private static final int NEVER = Integer.MAX_VALUE;

  /** A look at an archive is costly; 1 looks at every step. */
  private static final int NTH_OF_ARCHIVE = Integer.getInteger("diesurvey.endsOfArchives", 7);

  @TempDir Path temp;

  /** Words of a call in a folder. */
  private interface Words {
    List<Object> in(Path world);
  }

  private static Call call(List<Object> words) {
    return Call.with(DATE, false, words.toArray());
  }

  private static void done(List<Object> words) {
    Call call = call(words);
    assertEquals(0, call.code(), call.err());
  }

  private static void write(Path file, String text) {
    try {
      Files.createDirectories(file.getParent());
      Files.writeString(file, text);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static void copy(Path from, Path to) {
    try {
      Files.createDirectories(to.getParent());
      Files.copy(from, to);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Files below a folder by what is in them; those of a name left out. */
  private static Map<String, String> files(Path folder, String leftOut) throws IOException {
    Map<String, String> all = new TreeMap<>();
    if (Files.isDirectory(folder)) {
      NothingLostTest.tree(folder)
          .forEach(
              (name, text) -> {
                if (!text.equals("folder") && !name.matches(leftOut)) {
                  all.put(name, text);
                }
              });
    }
    return all;
  }

  /** A folder of a result, from nothing and over an earlier one. */
  private void folder(String result, Words earlier, Words later) throws IOException {
    for (boolean before : new boolean[] {false, true}) {
      Path first = prepared("first-" + before, result, earlier, before);
      Map<String, String> old = files(first.resolve(result), "");
      done(later.in(first));
      Map<String, String> fresh = files(first.resolve(result), "");
      assertFalse(old.equals(fresh), "the call changes nothing");
      Path world = prepared("second-" + before, result, earlier, before);
      Map<String, String> inputs = files(world, "out/.*");
      assertEquals(old, files(world.resolve(result), ""), "the calls do not give the same bytes");
      boolean[] seen = new boolean[2];
      int steps =
          EndedRun.everywhere(
              world,
              temp,
              () -> done(later.in(world)),
              (copy, step) -> {
                if (Files.isDirectory(copy.resolve("out"))) {
                  WholeFolder.restore(copy.resolve("out"));
                }
                Map<String, String> left = files(copy.resolve(result), "");
                assertTrue(left.equals(old) || left.equals(fresh), () -> step + ": " + left);
                seen[left.equals(old) ? 0 : 1] = true;
                assertEquals(inputs, files(copy, "out/.*"), step);
                Map<String, String> all =
                    files(copy.resolve("out"), ".*" + Path.of(result).getFileName() + "/.*");
                assertEquals(Map.of(), all, step + ", left");
              });
      assertTrue(steps > 20 && seen[0] && seen[1], "steps " + steps);
      assertEquals(fresh, files(world.resolve(result), ""));
    }
  }

  private Path prepared(String name, String result, Words earlier, boolean before)
      throws IOException {
    Path world = Files.createDirectories(temp.resolve(name));
    copy(SmallModel.photo(), world.resolve("die.png"));
    copy(SmallModel.photo(), world.resolve("die-b.png"));
    copy(SmallModel.model(), world.resolve("model.json.gz"));
    write(
        world.resolve("o.geojson"),
        TeachCommandTest.trueOutlines("\"photo\":{\"file_name\":\"die.png\",\"um_per_px\":1},"));
    if (before) {
      done(earlier.in(world));
      write(world.resolve(result).resolve(MINE), "mine");
      write(world.resolve(result).resolve("my notes/a.txt"), "mine");
    }
    return world;
  }

  private static List<Object> segment(Path world, String pitch) {
    return List.of(
        "segment",
        world.resolve("die.png"),
        "--um-per-px",
        pitch,
        "--out",
        world.resolve("out"),
        "--model",
        world.resolve("model.json.gz"),
        "--quiet");
  }

  @Test
  void segment() throws IOException {
    folder("out/die", w -> segment(w, "1"), w -> segment(w, "1.1"));
  }

  private static List<Object> measure(Path world, String pitch) {
    return List.of(
        "measure",
        world.resolve("die.png"),
        "--outlines",
        world.resolve("o.geojson"),
        "--um-per-px",
        pitch,
        "--out",
        world.resolve("out"),
        "--quiet");
  }

  @Test
  void measure() throws IOException {
    folder("out/die", w -> measure(w, "1"), w -> measure(w, "1.1"));
  }

  private static List<Object> compare(Path world, String pitch) {
    return List.of(
        "compare",
        world.resolve("die.png"),
        world.resolve("die-b.png"),
        "--um-per-px",
        pitch,
        "--out",
        world.resolve("out/a-to-b"),
        "--model",
        world.resolve("model.json.gz"),
        "--quiet");
  }

  @Test
  void compare() throws IOException {
    folder("out/a-to-b", w -> compare(w, "1"), w -> compare(w, "1.1"));
  }

  /** Files that a call names: each is the old or the new one, and the next call goes through. */
  private void files(Path world, List<Object> call, List<String> names, int everyNth)
      throws IOException {
    Map<String, String> old = files(world, "");
    Map<String, Map<String, String>> ends = new LinkedHashMap<>();
    Map<String, Map<String, String>> next = new LinkedHashMap<>();
    int steps =
        EndedRun.everywhere(
            world,
            temp,
            () -> done(call),
            (copy, step) -> {
              ends.put(step, files(copy, ""));
              if (ends.size() % everyNth == 0) {
                done(
                    call.stream()
                        .map(w -> w instanceof Path p ? copy.resolve(world.relativize(p)) : w)
                        .toList());
                next.put(step, files(copy, ""));
              }
            });
    Map<String, String> fresh = files(world, "");
    assertTrue(steps > 8, "steps " + steps);
    for (Map.Entry<String, Map<String, String>> end : ends.entrySet()) {
      for (Map.Entry<String, String> file : old.entrySet()) {
        String name = file.getKey();
        String now = end.getValue().get(name);
        assertTrue(
            file.getValue().equals(now)
                || name.endsWith(".sha256") && now != null
                || names.contains(name) && fresh.get(name).equals(now),
            () -> end.getKey() + ": " + name + " is " + now);
      }
    }
    next.forEach((step, after) -> assertEquals(fresh, after, step));
  }

  @Test
  void calibrate() throws IOException {
    Path world = Files.createDirectories(temp.resolve("world"));
    Path photo = MicrometerDrawing.draw(700001).write(world, "m");
    String division = MicrometerDrawing.draw(700001).truth().divisionUm() + "um";
    List<Object> call = new ArrayList<>(List.of("calibrate", photo, "--division", division));
    call.addAll(List.of("--out", world.resolve("20x.json")));
    done(call);
    write(world.resolve("20x-notes.txt"), "mine");
    call.addAll(List.of("--objective", "20x", "--division-tolerance", "1%"));
    files(world, call, List.of("20x.json", "20x-lines.png", "20x-residuals.png"), 12);
  }

  @Test
  void export() throws IOException {
    Path world = Files.createDirectories(temp.resolve("world"));
    copy(SmallModel.photo(), world.resolve("die.png"));
    write(
        world.resolve("o.geojson"),
        TeachCommandTest.trueOutlines("\"photo\":{\"file_name\":\"die.png\",\"um_per_px\":1},"));
    Path target = world.resolve("die.svg");
    for (String pitch : List.of("1", "1.1")) {
      List<Object> words = new ArrayList<>(measure(world, pitch));
      words.set(words.indexOf("--out") + 1, world.resolve("at-" + pitch));
      done(words);
    }
    done(List.of("export", world.resolve("at-1/die"), "--as", "csv", "--out", target));
    files(
        world,
        List.of(
            "export", world.resolve("at-1.1/die"), "--as", "csv", "--out", target, "--overwrite"),
        List.of("die.svg"),
        1);
  }

  @Test
  void teach() throws IOException {
    Path world = prepared("world", "out", w -> List.of(), false);
    copy(SmallModel.model(), world.resolve("lab.json.gz"));
    files(
        world,
        List.of(
            "teach",
            "--outlines",
            world.resolve("o.geojson"),
            "--base",
            world.resolve("model.json.gz"),
            "--megapixels",
            "0.2",
            "--quiet",
            "--model",
            world.resolve("lab.json.gz")),
        List.of("lab.json.gz"),
        NEVER);
  }

  private static List<Object> batch(Path world) {
    return List.of(
        "batch",
        world.resolve("photos"),
        "--um-per-px",
        "1",
        "--no-isolate",
        "--threads",
        "1",
        "--quiet",
        "--archive",
        world.resolve("archive"),
        "--model",
        SmallModel.model());
  }

  /** An archive with one survey that has lost a file, and a second photograph that is new. */
  private Path archive(String name) throws IOException {
    Path world = Files.createDirectories(temp.resolve(name));
    copy(SmallModel.photo(), world.resolve("photos/die.png"));
    done(batch(world));
    Path survey = only(world.resolve("archive/photos"));
    write(survey.resolve(MINE), "mine");
    write(world.resolve("archive/photos/NOTES.txt"), "mine");
    Files.delete(survey.resolve("survey.json"));
    byte[] other = Files.readAllBytes(drawn());
    Files.write(world.resolve("photos/die-b.png"), other);
    return world;
  }

  private Path drawn() {
    Path drawn = temp.resolve("drawn");
    if (!Files.isDirectory(drawn)) {
      done(List.of("draw", "--seed", 5, "--megapixels", 0.2, "--um-per-px", 1, "--out", drawn));
    }
    return drawn.resolve("die-5.png");
  }

  private static Path only(Path photos) throws IOException {
    try (Stream<Path> all = Files.list(photos)) {
      return all.filter(Files::isDirectory).findFirst().orElseThrow();
    }
  }

  @Test
  void batch() throws IOException {
    Path first = archive("first");
    done(batch(first));
    String database = "archive[.]sqlite.*|[.]lock";
    Map<String, String> whole = files(first.resolve("archive"), database);
    Path world = archive("second");
    Map<String, String> photos = files(world.resolve("photos"), "");
    int[] looks = {0};
    int steps =
        EndedRun.every(
            NTH_OF_ARCHIVE,
            world,
            temp,
            () -> done(batch(world)),
            (copy, step) -> {
              Call check = Call.of("archive", "check", copy.resolve("archive"));
              assertTrue(check.code() < 2, step + ": " + check.err());
              assertEquals(photos, files(copy.resolve("photos"), ""), step);
              String said = check.out();
              assertTrue(said.contains("/" + MINE) && said.contains("NOTES.txt"), step + said);
              assertFalse(said.contains(".diesurvey") || said.contains(".work"), step + said);
              assertFalse(said.contains("altered  photos"), step + said);
              if (looks[0]++ % 12 == 6) {
                done(batch(copy));
                assertEquals(whole, files(copy.resolve("archive"), database), step);
              }
            });
    assertTrue(steps > 60, "steps " + steps);
    assertEquals(whole, files(world.resolve("archive"), database));
  }
}
