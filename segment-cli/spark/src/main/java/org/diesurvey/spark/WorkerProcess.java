package org.diesurvey.spark;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ConcurrentLinkedDeque;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;

/**
 * A process of the program that surveys, kept from one task to the next. It ends by itself when
 * this executor ends, since its input ends then.
 */
final class WorkerProcess {
  private static final Duration START = Duration.ofMinutes(2);
  private static final String END = "";

  /** In the answer of a process that ends itself thereafter. */
  private static final String ENDS = "\"failed\":\"OUT_OF_MEMORY\"";

  private static final Map<List<String>, ConcurrentLinkedDeque<WorkerProcess>> IDLE =
      new ConcurrentHashMap<>();

  private final Process process;
  private final LinkedBlockingQueue<String> lines = new LinkedBlockingQueue<>();

  private WorkerProcess(Process process) {
    this.process = process;
    Thread reader = new Thread(this::read, "worker " + process.pid());
    reader.setDaemon(true);
    reader.start();
  }

  /** How a question ended. */
  enum Kind {
    ANSWERED,
    LATE,
    LOST
  }

  /**
   * An answer.
   *
   * @param kind how the question ended
   * @param text of the answer, or how the process ended
   */
  record Answer(Kind kind, String text) {}

  /**
   * Asks an idle process, or a new one.
   *
   * @throws IllegalStateException if no process gets ready, or this thread is interrupted: the task
   *     is then for another executor
   */
  static Answer ask(List<String> command, String question, Duration limit) {
    ConcurrentLinkedDeque<WorkerProcess> idle =
        IDLE.computeIfAbsent(command, c -> new ConcurrentLinkedDeque<>());
    WorkerProcess worker = null;
    boolean keep = false;
    try {
      do {
        worker = idle.pollFirst();
      } while (worker != null && !worker.process.isAlive());
      worker = worker == null ? start(command) : worker;
      worker.say(question);
      String answer = worker.lines.poll(limit.toMillis(), TimeUnit.MILLISECONDS);
      if (answer == null) {
        return new Answer(Kind.LATE, "");
      }
      if (answer.equals(END)) {
        return worker.lost();
      }
      keep = !answer.contains(ENDS);
      return new Answer(Kind.ANSWERED, answer);
    } catch (IOException e) {
      return worker.lost();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("interrupted", e);
    } finally {
      if (keep) {
        idle.addFirst(worker);
      } else if (worker != null) {
        worker.process.destroyForcibly();
      }
    }
  }

  private static WorkerProcess start(List<String> command) throws InterruptedException {
    try {
      Process process =
          new ProcessBuilder(command).redirectError(ProcessBuilder.Redirect.INHERIT).start();
      WorkerProcess worker = new WorkerProcess(process);
      String first = worker.lines.poll(START.toMillis(), TimeUnit.MILLISECONDS);
      if (first == null || first.equals(END)) {
        process.destroyForcibly();
        throw new IllegalStateException("a worker process did not start; see this executor's log");
      }
      return worker;
    } catch (IOException e) {
      throw new IllegalStateException("a worker process did not start", e);
    }
  }

  private void say(String line) throws IOException {
    process.getOutputStream().write((line + "\n").getBytes(StandardCharsets.UTF_8));
    process.getOutputStream().flush();
  }

  private Answer lost() {
    try {
      boolean ended = process.waitFor(2, TimeUnit.SECONDS);
      return new Answer(Kind.LOST, ended ? "exit code " + process.exitValue() : "no answer");
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("interrupted", e);
    }
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
