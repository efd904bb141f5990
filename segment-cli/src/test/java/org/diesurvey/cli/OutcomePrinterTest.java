package org.diesurvey.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Path;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.junit.jupiter.api.Test;

class OutcomePrinterTest {
  private final StringWriter err = new StringWriter();
  private final StringWriter out = new StringWriter();

  private OutcomePrinter printer(boolean json) {
    Terminal terminal =
        new Terminal(new PrintWriter(out), new PrintWriter(err), false, false, false, name -> null);
    Diesurvey root = Diesurvey.commandLine(terminal).getCommand();
    return new OutcomePrinter(root, false, json);
  }

  @Test
  void faultOfTheProgram_isOneSentenceAndOutweighsRejections() {
    OutcomePrinter printer = printer(false);
    Path photo = Path.of("die.png");
    printer.tell(
        new PhotoOutcome.Rejected(
            photo, new DieInputException(Reason.FILE_EMPTY, "die.png is empty.")));
    assertEquals(1, printer.exitCode());
    printer.tell(new PhotoOutcome.Failed(photo, new IllegalStateException("inner detail")));
    assertEquals(70, printer.exitCode());
    assertEquals(2, err.toString().lines().count(), err.toString());
    assertTrue(err.toString().contains("--debug"), err.toString());
    assertFalse(err.toString().contains("\tat "), err.toString());
  }

  @Test
  void exhaustedMemory_namesItsRemedy() {
    printer(false).tell(new PhotoOutcome.Failed(Path.of("die.png"), new OutOfMemoryError("heap")));
    assertTrue(err.toString().contains("-Xmx"), err.toString());
  }

  @Test
  void rejectionThatDoesNotNameThePhotograph_isGivenItsName() {
    DieInputException vague = new DieInputException(Reason.SCALE_INVALID, "The scale is wrong.");
    assertEquals(
        "tray/die.png: The scale is wrong.",
        new PhotoOutcome.Rejected(Path.of("tray/die.png"), vague).sentence().replace('\\', '/'));
  }

  @Test
  void fault_isALineOfJsonToo() {
    printer(true).tell(new PhotoOutcome.Failed(Path.of("die.png"), new IllegalStateException("x")));
    assertTrue(out.toString().contains("\"status\":\"failed\""), out.toString());
  }
}
