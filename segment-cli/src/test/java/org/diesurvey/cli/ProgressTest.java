package org.diesurvey.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.PrintWriter;
import java.io.StringWriter;
import org.junit.jupiter.api.Test;

class ProgressTest {
  private final StringWriter err = new StringWriter();
  private long now;

  private Progress progress(boolean watched, Progress.Form form, int items) {
    PrintWriter out = new PrintWriter(new StringWriter());
    Terminal t = new Terminal(out, new PrintWriter(err), watched, false, false, k -> null);
    return new Progress(t, form, false, items, () -> now);
  }

  private void seconds(double s) {
    now = Math.round(s * 1e9);
  }

  @Test
  void watched_redrawsOneLineAndClearsIt() {
    Progress p = progress(true, Progress.Form.TEXT, 2);
    p.begin("die.png");
    p.stageDone("features");
    p.end("surveyed");
    assertFalse(err.toString().contains("\n"));
    assertTrue(err.toString().contains("\r["), err.toString());
    assertTrue(err.toString().endsWith("\r"));
  }

  /** After the features 49 % of a photograph's time have passed: 4 s of about 8.2. */
  @Test
  void watched_tellsSecondsGoneAndLeft() {
    Progress p = progress(true, Progress.Form.TEXT, 1);
    p.begin("die.png");
    assertTrue(err.toString().contains("1 of 1, 0 s  die.png"), err.toString());
    seconds(4);
    p.stageDone("features");
    assertTrue(
        err.toString().contains("1 of 1, 4 s, about 4 s left  die.png  classification"),
        err.toString());
    p.stop();
  }

  @Test
  void watched_isRedrawnWithoutAStageBeingDone() throws Exception {
    Progress p = progress(true, Progress.Form.TEXT, 1);
    p.begin("die.png");
    seconds(7);
    for (int i = 0; i < 100 && !err.toString().contains("7 s"); i++) {
      Thread.sleep(50);
    }
    p.stop();
    assertTrue(err.toString().contains("1 of 1, 7 s"), err.toString());
  }

  @Test
  void piped_isOneLineAPhotograph() {
    Progress p = progress(false, Progress.Form.TEXT, 2);
    p.begin("die.png");
    p.stageDone("features");
    p.end("surveyed");
    assertEquals("1 of 2  die.png: surveyed", err.toString().strip());
  }

  @Test
  void forAScript_isALineOfJsonForEachStep() throws Exception {
    Progress p = progress(false, Progress.Form.JSON, 2);
    p.begin("a \"die\".png");
    seconds(4);
    p.stageDone("features");
    p.end("surveyed");
    String[] lines = err.toString().strip().split("\\R");
    assertEquals(3, lines.length, err.toString());
    ObjectMapper mapper = new ObjectMapper();
    JsonNode stage = mapper.readTree(lines[1]);
    assertEquals("stage", stage.get("event").asText());
    assertEquals("a \"die\".png", stage.get("name").asText());
    assertEquals("classification", stage.get("stage").asText());
    assertEquals(1, stage.get("item").asInt());
    assertEquals(2, stage.get("of").asInt());
    assertEquals(0.245, stage.get("share").asDouble(), 1e-9);
    assertEquals(4.0, stage.get("elapsed_s").asDouble(), 1e-9);
    assertEquals(4 / 0.245 - 4, stage.get("remaining_s").asDouble(), 0.06);
    assertEquals("surveyed", mapper.readTree(lines[2]).get("outcome").asText());
  }

  @Test
  void aHostileName_staysInItsLine() {
    Progress p = progress(true, Progress.Form.TEXT, 1);
    p.begin("a\u001b[2Jb\nc.png");
    p.stageDone("features");
    p.stop();
    assertFalse(err.toString().contains("\u001b"));
    assertFalse(err.toString().contains("\n"));
  }
}
