package org.diesurvey.cli;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Path;
import java.time.Instant;
import java.util.OptionalLong;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.pipeline.DieSegmenter;
import org.diesurvey.report.SurveyFolder;

/** Memory of one process over many surveys of one photograph, each written to the same folder. */
final class LongRun {
  /** How often it is told. */
  private static final int PARTS = 10;

  private static final double MIB = 1024.0 * 1024;

  private final Terminal terminal;
  private final Path photo;
  private final double umPerPx;
  private final Path folder;
  private final DieSegmenter segmenter;

  /**
   * @param folder for the survey; what an earlier run left there is replaced
   */
  LongRun(Terminal terminal, Path photo, double umPerPx, Path folder, DieSegmenter segmenter) {
    this.terminal = terminal;
    this.photo = photo;
    this.umPerPx = umPerPx;
    this.folder = folder;
    this.segmenter = segmenter;
  }

  /**
   * Surveys so many times.
   *
   * @param surveys 10 or more
   */
  void run(int surveys) throws IOException {
    Columns table = new Columns();
    table.row("surveys", "heap in use, MiB", "resident, MiB", "peak resident, MiB");
    double first = 0;
    double last = 0;
    for (int i = 1; i <= surveys; i++) {
      survey();
      if ((long) i * PARTS / surveys > (i - 1L) * PARTS / surveys) {
        System.gc(); // what is in use, not what waits for the collector
        double heap = ManagementFactory.getMemoryMXBean().getHeapMemoryUsage().getUsed() / MIB;
        OptionalLong resident = FreshProcess.statusKib("VmRSS:");
        last = resident.orElse(0) / 1024.0;
        first = first == 0 ? last : first;
        table.row(
            Integer.toString(i),
            Figures.fixed(heap, 1),
            FreshProcess.mib(resident),
            FreshProcess.mib(FreshProcess.statusKib("VmHWM:")));
      }
    }
    table.lines(2).forEach(terminal::result);
    if (first > 0) {
      terminal.result(
          "  resident memory after the first tenth and at the end: "
              + Figures.fixed(100 * (last / first - 1), 1)
              + " % more");
    }
  }

  private void survey() throws IOException {
    try (DiePhoto open = DiePhoto.open(photo)) {
      Calibration scale = Calibration.ofPixelPitch(umPerPx, 0.002 * umPerPx);
      SurveyFolder.write(
          segmenter.segment(open, scale), open.pixels(), folder.resolve("long"), Instant.EPOCH);
    }
  }
}
