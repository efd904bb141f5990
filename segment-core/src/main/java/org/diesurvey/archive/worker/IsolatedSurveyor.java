package org.diesurvey.archive.worker;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.concurrent.ConcurrentLinkedDeque;
import org.diesurvey.CancelledException;
import org.diesurvey.archive.BatchPhoto;
import org.diesurvey.archive.PhotoFailure;
import org.diesurvey.archive.PhotoSurveyor;

/**
 * Surveys in processes of their own, each used for one photograph after the other. A crash in
 * native code, the end of memory or of the time limit takes one process and its photograph, never
 * the run.
 */
public final class IsolatedSurveyor implements PhotoSurveyor {
  /** Time for a process to start on a busy computer. */
  private static final Duration START = Duration.ofMinutes(2);

  private final List<String> command;
  private final SortedMap<String, String> identity;
  private final Duration limit;
  private final ConcurrentLinkedDeque<WorkerProcess> idle = new ConcurrentLinkedDeque<>();

  /**
   * @param command starts a process that runs {@link SurveyWorker#serve}
   * @param identity of the surveyor in that process
   * @param limit time for each photograph
   */
  public IsolatedSurveyor(
      List<String> command, SortedMap<String, String> identity, Duration limit) {
    this.command = List.copyOf(command);
    this.identity = identity;
    this.limit = limit;
  }

  @Override
  public void survey(BatchPhoto photo, Path folder, Instant created, int threads) {
    WorkerProcess worker = idle.pollFirst();
    boolean keep = false;
    try {
      if (worker == null || !worker.alive()) {
        worker = WorkerProcess.start(command, START);
      }
      JsonNode answer = ask(worker, new WorkerMessage(photo, folder, created, threads));
      keep = !WorkerMessage.ranOutOfMemory(answer);
      WorkerMessage.requireDone(answer);
    } catch (IOException e) {
      if (Thread.currentThread().isInterrupted()) {
        throw new CancelledException("surveying " + photo.place());
      }
      throw new PhotoFailure(
          PhotoFailure.Kind.WORKER_LOST,
          photo.place()
              + ": the process that surveyed it ended"
              + (worker == null ? "" : worker.exitInWords())
              + ".",
          e);
    } finally {
      if (keep) {
        idle.addFirst(worker);
      } else if (worker != null) {
        worker.kill();
      }
    }
  }

  private JsonNode ask(WorkerProcess worker, WorkerMessage message) throws IOException {
    worker.say(message.line());
    Optional<String> answer = worker.hear(limit);
    if (answer.isEmpty()) {
      throw LocalSurveyor.outOfTime(message.photo(), limit);
    }
    return WorkerMessage.JSON.readTree(answer.get());
  }

  @Override
  public SortedMap<String, String> identity() {
    return identity;
  }

  /** Ends all processes. */
  @Override
  public void close() {
    for (WorkerProcess w = idle.poll(); w != null; w = idle.poll()) {
      w.kill();
    }
  }
}
