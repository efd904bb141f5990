package org.diesurvey.cli;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.json.SurveyJson;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class TeachCommandTest {
  @TempDir Path temp;

  private static String square(String id, String dieClass, int x, int y, int side) {
    return String.format(
        Locale.ROOT,
        "{\"type\":\"Feature\",\"properties\":{\"id\":\"%s\",\"class\":\"%s\"},\"geometry\":"
            + "{\"type\":\"Polygon\",\"coordinates\":[[[%d,%d],[%d,%d],[%d,%d],[%d,%d],[%d,%d]]]}}",
        id,
        dieClass,
        x,
        y,
        x + side,
        y,
        x + side,
        y + side,
        x,
        y + side,
        x,
        y);
  }

  private Path outlines(String photo, String... features) throws IOException {
    return Files.writeString(temp.resolve("outlines.geojson"), text(photo, features));
  }

  private static String text(String photo, String... features) {
    return "{\"type\":\"FeatureCollection\",\"coordinate_frame\":{\"unit\":\"px\",\"y_axis\":\"down\"},"
        + photo
        + "\"features\":["
        + String.join(",", features)
        + "]}";
  }

  private Call teach(Path outlines, Object... more) {
    List<Object> args = new ArrayList<>(List.of("teach", "--outlines", outlines));
    args.addAll(List.of("--model", temp.resolve("lab.json.gz"), "--megapixels", "0.2"));
    args.addAll(List.of("--base", SmallModel.model()));
    args.addAll(List.of(more));
    return Call.of(args.toArray());
  }

  private void refused(Call call, String expected) {
    assertEquals(2, call.code(), call.err());
    assertTrue(call.err().contains(expected), call.err());
    assertFalse(Files.exists(temp.resolve("lab.json.gz")), "something was written");
  }

  @Test
  void badCalls_areRefused_andNothingWritten() throws IOException {
    Path three =
        outlines(
            "",
            square("A", "logic", 60, 60, 60),
            square("B", "logic", 160, 60, 60),
            square("C", "logic", 60, 160, 60));
    refused(teach(three, "--um-per-px", "1"), "do not name their photograph");
    refused(teach(three, "--photo", "a", "b"), "one photograph for each file");
    refused(teach(three, "--photo", SmallModel.photo(), "--no-scale"), "without a scale");
    refused(
        teach(three, "--photo", SmallModel.photo(), "--um-per-px", "1", "--quiet"),
        "3 of 1 class hold");
    refused(
        teach(
            outlines(
                "\"photo\":{\"file_name\":\"../../none.png\"},", square("A", "logic", 9, 9, 9)),
            "--um-per-px",
            "1"),
        "not beside them");
    refused(
        teach(
            outlines(
                "\"photo\":{\"sha256\":\"" + "0".repeat(64) + "\"},",
                square("A", "logic", 9, 9, 9)),
            "--photo",
            SmallModel.photo(),
            "--um-per-px",
            "1"),
        "another photograph");
    refused(
        teach(
            outlines("", square("A", "logic", -900, 9, 9)),
            "--photo",
            SmallModel.photo(),
            "--um-per-px",
            "1"),
        "reaches out of the");
  }

  /** Squares inside true blocks of the drawn die, from its truth file. */
  static String trueOutlines(String photo) {
    return text(
        photo,
        square("MEM1", "memory array", 248, 84, 66),
        square("MEM2", "memory array", 327, 84, 66),
        square("MEM3", "memory array", 405, 84, 66),
        square("LOG1", "logic", 75, 140, 80),
        square("LOG2", "logic", 75, 230, 150),
        square("MAC1", "hard macro", 360, 225, 110),
        square("MAC2", "hard macro", 85, 69, 47));
  }

  @Test
  void outlinesOnAPhotograph_teachTheModel_andSegmentUsesIt() throws IOException {
    Path drawn =
        Files.writeString(
            temp.resolve("outlines.geojson"),
            trueOutlines("\"photo\":{\"file_name\":\"die-3.png\",\"um_per_px\":1},"));
    Files.copy(SmallModel.photo(), temp.resolve("die-3.png"));
    // The photograph and the scale are those that the outlines name.
    Call first = teach(drawn, "--threads", "1", "--quiet");
    Path model = temp.resolve("lab.json.gz");
    assertEquals(0, first.code(), first.err());
    assertTrue(first.out().contains("7 outlines"), first.out());
    byte[] bytes = Files.readAllBytes(model);
    assertEquals(0, teach(drawn, "--threads", "2", "--quiet").code());
    assertArrayEquals(bytes, Files.readAllBytes(model));
    Call again =
        Call.of(
            "segment",
            SmallModel.photo(),
            "--um-per-px",
            "1",
            "--out",
            temp.resolve("again"),
            "--quiet",
            "--model",
            model);
    assertEquals(0, again.code(), again.err());
    Survey after = SurveyJson.read(temp.resolve("again/die-3/survey.json"));
    assertTrue(after.method().software().toString().contains("taught on 1 photograph"));
  }
}
