package org.diesurvey.archive.worker;

import java.io.BufferedReader;
import java.io.EOFException;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;

/** A process that answers lines with lines. */
final class WorkerProcess {
  private static final String END = "";

  private final Process process;
  private final LinkedBlockingQueue<String> lines = new LinkedBlockingQueue<>();

  private WorkerProcess(Process process) {
    this.process = process;
    Thread reader = new Thread(this::read, "worker " + process.pid());
    reader.setDaemon(true);
    reader.start();
  }

  /**
   * Starts a process and waits until it is ready.
   *
   * @throws IOException if it does not get ready
   */
  static WorkerProcess start(List<String> command, Duration patience) throws IOException {
    WorkerProcess worker =
        new WorkerProcess(
            new ProcessBuilder(command).redirectError(ProcessBuilder.Redirect.DISCARD).start());
    Optional<String> first = Optional.empty();
    try {
      first = worker.hear(patience);
    } finally {
      if (!first.equals(Optional.of(SurveyWorker.READY))) {
        worker.kill();
      }
    }
    if (!first.equals(Optional.of(SurveyWorker.READY))) {
      throw new IOException("a worker process did not start");
    }
    return worker;
  }

  boolean alive() {
    return process.isAlive();
  }

  void say(String line) throws IOException {
    process.getOutputStream().write((line + "\n").getBytes(StandardCharsets.UTF_8));
    process.getOutputStream().flush();
  }

  /**
   * The next line.
   *
   * @return empty if none came in time
   * @throws EOFException if the process has ended
   */
  Optional<String> hear(Duration patience) throws IOException {
    try {
      String line = lines.poll(patience.toMillis(), TimeUnit.MILLISECONDS);
      if (line != null && line.equals(END)) {
        throw new EOFException("the process has ended");
      }
      return Optional.ofNullable(line);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IOException("interrupted", e);
    }
  }

  /** " with exit code 134", once it is known. */
  String exitInWords() {
    try {
      return process.waitFor(2, TimeUnit.SECONDS) ? " with exit code " + process.exitValue() : "";
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return "";
    }
  }

  void kill() {
    process.destroyForcibly();
  }

  private void read() {
    try (BufferedReader reader =
        new BufferedReader(
            new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8))) {
      for (String line = reader.readLine(); line != null; line = reader.readLine()) {
        lines.add(line);
      }
    } catch (IOException e) {
      // The process was ended while it was listened to.
    }
    lines.add(END);
  }
}
