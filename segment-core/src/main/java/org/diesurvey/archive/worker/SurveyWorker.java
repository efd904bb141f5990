package org.diesurvey.archive.worker;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.OutputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.util.concurrent.LinkedBlockingQueue;
import org.diesurvey.DieInputException;
import org.diesurvey.archive.PhotoFailure;
import org.diesurvey.archive.PhotoSurveyor;
import org.diesurvey.files.Checksums;

/**
 * The other end of {@link IsolatedSurveyor}: surveys the photographs that its input names, one line
 * of JSON each, and answers with one line each.
 */
public final class SurveyWorker {
  static final String READY = "{\"ready\":true}";

  private SurveyWorker() {}

  /**
   * Serves until the memory runs out once.
   *
   * @param surveyor does the work
   * @param in lines from the run
   * @param out answers to it
   * @param runIsGone called, from another thread, when the input ends: the run is over or lost, and
   *     nobody wants the photograph in work
   */
  public static void serve(
      PhotoSurveyor surveyor, InputStream in, OutputStream out, Runnable runIsGone)
      throws IOException {
    LinkedBlockingQueue<String> lines = new LinkedBlockingQueue<>();
    Thread reader = new Thread(() -> read(in, lines, runIsGone), "lines");
    reader.setDaemon(true);
    reader.start();
    say(out, READY);
    boolean healthy = true;
    while (healthy) {
      String line;
      try {
        line = lines.take();
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
        return;
      }
      ObjectNode answer = answer(surveyor, WorkerMessage.parse(line));
      say(out, answer.toString());
      healthy = !WorkerMessage.ranOutOfMemory(answer);
    }
  }

  private static ObjectNode answer(PhotoSurveyor surveyor, WorkerMessage message) {
    ObjectNode answer = WorkerMessage.JSON.createObjectNode();
    try {
      surveyor.survey(message.photo(), message.folder(), message.created(), message.threads());
      Checksums.seal(message.folder());
      answer.put("done", true);
    } catch (DieInputException e) {
      answer
          .put("rejected", e.reason().name())
          .put("sentence", message.inTheirWords(e.getMessage()));
    } catch (PhotoFailure e) {
      answer.put("failed", e.kind().name()).put("sentence", message.inTheirWords(e.getMessage()));
      if (e.getCause() != null) {
        StringWriter trace = new StringWriter();
        e.getCause().printStackTrace(new PrintWriter(trace));
        answer.put("trace", trace.toString());
      }
    } catch (IOException e) {
      answer.put("rejected", DieInputException.Reason.OUTPUT_NOT_WRITABLE.name());
      answer.put("sentence", message.folder() + ": cannot be written; is the disk full?");
    }
    return answer;
  }

  private static void read(InputStream in, LinkedBlockingQueue<String> lines, Runnable end) {
    try (BufferedReader reader =
        new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8))) {
      for (String line = reader.readLine(); line != null; line = reader.readLine()) {
        lines.add(line);
      }
    } catch (IOException e) {
      // A broken pipe is an end like any other.
    }
    end.run();
  }

  private static void say(OutputStream out, String line) throws IOException {
    out.write((line + "\n").getBytes(StandardCharsets.UTF_8));
    out.flush();
  }
}
