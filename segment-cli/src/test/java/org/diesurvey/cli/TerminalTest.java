package org.diesurvey.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.Map;
import org.junit.jupiter.api.Test;

class TerminalTest {
  /** The rule of no-color.org: "when present and not an empty string" (from memory). */
  @Test
  void noColorVariable_turnsColourOff() {
    Map<String, String> none = Map.of("TERM", "xterm");
    assertTrue(Terminal.mayColour(true, none::get));
    assertTrue(Terminal.mayColour(true, Map.of("NO_COLOR", "")::get));
    assertFalse(Terminal.mayColour(true, Map.of("NO_COLOR", "1")::get));
    assertFalse(Terminal.mayColour(true, Map.of("TERM", "dumb")::get));
    assertFalse(Terminal.mayColour(false, none::get));
  }

  @Test
  void asciiStream_getsStandIns() {
    PrintWriter nowhere = new PrintWriter(new StringWriter());
    Terminal ascii = new Terminal(nowhere, nowhere, false, false, true, k -> null);
    assertEquals("2.1 +- 0.1 x 3 mm2", ascii.shown("2.1 \u00b1 0.1 \u00d7 3 mm\u00b2"));
  }

  @Test
  void controlCharacters_neverReachTheTerminal_ourOwnStylesDo() {
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    Terminal t =
        new Terminal(new PrintWriter(out), new PrintWriter(err), true, true, false, k -> null);
    t.remark("diesurvey: a\u001b[2Jb\u009bc\u202ed\ne\u0007.png is damaged");
    assertEquals("diesurvey: a?[2Jb?c?d e?.png is damaged", err.toString().strip());
    t.result(t.strong("die\u001b]0;x.png"));
    assertEquals("\u001b[1mdie?]0;x.png\u001b[0m", out.toString().strip());
    t.result("{\"file\":\"a\u009bb\"}");
    assertTrue(out.toString().contains("{\"file\":\"a\\u009bb\"}"), out.toString());
  }

  @Test
  void longMessage_isShortened_andKeepsItsEnd() {
    StringWriter err = new StringWriter();
    PrintWriter out = new PrintWriter(new StringWriter());
    Terminal t = new Terminal(out, new PrintWriter(err), false, false, false, k -> null);
    t.remark("diesurvey: " + "/hostile".repeat(1000) + " does not exist: check the spelling.");
    assertTrue(err.toString().length() < 800, err.toString());
    assertTrue(err.toString().strip().endsWith("check the spelling."), err.toString());
  }
}
