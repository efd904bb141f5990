package org.diesurvey.cli;

import java.io.IOException;
import java.io.InputStream;
import java.io.PrintStream;
import java.time.Duration;
import java.util.concurrent.Callable;
import org.diesurvey.archive.worker.LocalSurveyor;
import org.diesurvey.archive.worker.SurveyWorker;
import org.diesurvey.pipeline.DieSegmenter;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** A process of a batch with --isolate; not for people. */
@Command(name = "batch-worker", hidden = true, description = "Serves a batch with --isolate.")
final class BatchWorkerCommand implements Callable<Integer> {
  @Mixin private DensityOptions densities;

  @Mixin private ModelOptions model;

  @Option(names = "--pdf")
  private boolean pdf;

  @Option(names = "--no-scale")
  private boolean noTag;

  @Override
  public Integer call() throws IOException {
    InputStream in = System.in;
    PrintStream out = System.out;
    // Whatever a library may print must not be taken for an answer.
    System.setOut(System.err);
    DieSegmenter segmenter = BatchCommand.segmenter(model, densities);
    LocalSurveyor surveyor =
        new LocalSurveyor(segmenter, new TaggedScales(!noTag), Duration.ofDays(365), pdf);
    SurveyWorker.serve(surveyor, in, out, () -> Runtime.getRuntime().halt(0));
    return ExitCode.DONE;
  }
}
