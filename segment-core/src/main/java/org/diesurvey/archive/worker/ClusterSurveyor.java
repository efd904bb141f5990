package org.diesurvey.archive.worker;

import com.fasterxml.jackson.core.JsonProcessingException;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.Socket;
import java.net.URI;
import java.net.URLDecoder;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.atomic.AtomicLong;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.archive.BatchPhoto;
import org.diesurvey.archive.PhotoFailure;
import org.diesurvey.archive.PhotoSurveyor;
import org.diesurvey.archive.store.ArchiveFolder;
import org.diesurvey.archive.store.ArchiveStore;
import org.diesurvey.archive.store.StoredArchive;
import org.diesurvey.files.Disk;

/**
 * Surveys on other computers. Their coordinator listens on a loopback port of this computer; lines
 * go to and fro, each with the number of its question, fields separated by tabs and
 * percent-encoded:
 *
 * <pre>
 * TOKEN OPTION...                                   ready SLOTS
 * N checksum PHOTO                                  N sum HEX
 * N list FOLDER                                     N listed FILE...
 * N survey PHOTO FOLDER MILLISECONDS {message}      N answered FOLDER {answer}
 *                                                   N late | N lost WORDS | N unreadable WORDS
 * N make URI TEXT                                   N done | N there
 * N put FILE URI                                    N done
 * N get URI FILE                                    N done | N absent
 * N below URI                                       N below NAME BYTES...
 * N move URI URI LAST                               N done
 * N remove URI                                      N done
 * </pre>
 *
 * <p>The message and the answer are those of worker processes, as they are. A survey may be made
 * more than once, where a computer is lost or slow; each attempt has a folder of its own, and the
 * one that is answered is renamed to the folder that was asked for, or, where the archive lies in a
 * store, named in the working folder. The last six are done by the coordinator itself; each may be
 * answered by N refused WORDS.
 */
public final class ClusterSurveyor implements PhotoSurveyor {
  private final Socket socket;
  private final OutputStream out;
  private final SortedMap<String, String> identity;
  private final Duration limit;
  private final int slots;
  private final AtomicLong numbers = new AtomicLong();
  private final Map<String, CompletableFuture<String[]>> asked = new ConcurrentHashMap<>();
  private volatile boolean ended;
  private volatile String store;

  private ClusterSurveyor(
      Socket socket, BufferedReader in, SortedMap<String, String> identity, Duration limit)
      throws IOException {
    this.socket = socket;
    this.out = socket.getOutputStream();
    this.identity = identity;
    this.limit = limit;
    String[] ready = String.valueOf(in.readLine()).split("\t");
    if (ready.length != 2 || !ready[0].equals("ready")) {
      throw new IOException("the coordinator did not get ready");
    }
    slots = Integer.parseInt(ready[1]);
    Thread reader = new Thread(() -> read(in), "cluster");
    reader.setDaemon(true);
    reader.start();
  }

  /**
   * Connects to the coordinator.
   *
   * @param port on the loopback interface
   * @param token that it expects
   * @param words options for worker processes; one that begins with @ is a file that they need
   * @param identity of the surveyors on the other computers
   * @param limit time for each photograph
   * @throws DieInputException OUTPUT_NOT_WRITABLE if it does not answer
   */
  public static ClusterSurveyor connect(
      int port,
      String token,
      List<String> words,
      SortedMap<String, String> identity,
      Duration limit) {
    try {
      Socket socket = new Socket(InetAddress.getLoopbackAddress(), port);
      socket.setTcpNoDelay(true);
      StringBuilder hello = new StringBuilder(token);
      words.forEach(word -> hello.append('\t').append(encoded(word)));
      socket.getOutputStream().write((hello + "\n").getBytes(StandardCharsets.UTF_8));
      return new ClusterSurveyor(
          socket,
          new BufferedReader(
              new InputStreamReader(socket.getInputStream(), StandardCharsets.UTF_8)),
          identity,
          limit);
    } catch (IOException e) {
      throw gone(e);
    }
  }

  /** Photographs that the cluster can survey at a time, when it was asked; at least 1. */
  public int slots() {
    return slots;
  }

  /**
   * An archive in a store that the cluster can write; surveys go there from now on.
   *
   * @param archive for example "s3a://lab/archive"
   */
  public ArchiveStore store(URI archive) {
    ClusterStore there = new ClusterStore(archive.toString(), this::ask);
    store = there.place();
    return there;
  }

  @Override
  public void survey(BatchPhoto photo, Path folder, Instant created, int threads) {
    String name = folder.getFileName().toString();
    String attempts = folder.getParent().getFileName() + "/" + name;
    String asked =
        store == null ? folder.toString() : store + "/" + StoredArchive.WORK + "/" + attempts;
    WorkerMessage message = new WorkerMessage(photo, folder, created, 1);
    String[] answer =
        ask(
            "survey",
            encoded(photo.place()),
            encoded(asked),
            Long.toString(limit.toMillis()),
            message.line());
    switch (answer[1]) {
      case "answered" -> take(answer, folder);
      case "late" -> throw LocalSurveyor.outOfTime(photo, limit);
      case "unreadable" ->
          throw new DieInputException(
              Reason.FILE_UNREADABLE,
              photo.place() + ": cannot be read (" + decoded(answer[2]) + ").");
      default ->
          throw new PhotoFailure(
              PhotoFailure.Kind.WORKER_LOST,
              photo.place()
                  + ": the process that surveyed it ended ("
                  + decoded(answer[answer.length - 1])
                  + ").",
              null);
    }
  }

  private void take(String[] answer, Path folder) {
    try {
      WorkerMessage.requireDone(WorkerMessage.JSON.readTree(answer[3]));
      if (store != null) {
        String attempt = decoded(answer[2]).substring(store.length() + 1);
        Disk.folders(folder);
        Disk.write(folder.resolve(StoredArchive.ATTEMPT), attempt.getBytes(StandardCharsets.UTF_8));
        return;
      }
      Disk.move(Path.of(decoded(answer[2])), folder);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("a worker answered something else", e);
    } catch (IOException e) {
      throw ArchiveFolder.refused(
          folder
              + ": the survey that another computer made is not here; the folder of the archive"
              + " must lie on a disk that all computers see under the same path.",
          e);
    }
  }

  @Override
  public String checksum(BatchPhoto photo) {
    String[] answer = ask("checksum", encoded(photo.place()));
    return answer[1].equals("sum") ? answer[2] : "";
  }

  /**
   * All files below a folder of a store, in their order.
   *
   * @throws DieInputException FILE_UNREADABLE if it cannot be listed
   */
  public List<URI> list(URI folder) {
    String[] answer = ask("list", encoded(folder.toString()));
    if (!answer[1].equals("listed")) {
      throw new DieInputException(
          Reason.FILE_UNREADABLE,
          folder + ": cannot be listed (" + decoded(answer[answer.length - 1]) + ").");
    }
    return Arrays.stream(answer)
        .skip(2)
        .map(ClusterSurveyor::decoded)
        .sorted()
        .map(URI::create)
        .toList();
  }

  private String[] ask(String... words) {
    String number = Long.toString(numbers.incrementAndGet());
    CompletableFuture<String[]> answer = new CompletableFuture<>();
    asked.put(number, answer);
    try {
      byte[] line =
          (number + "\t" + String.join("\t", words) + "\n").getBytes(StandardCharsets.UTF_8);
      synchronized (out) {
        out.write(line);
        out.flush();
      }
    } catch (IOException e) {
      throw gone(e);
    }
    if (ended) {
      answer.complete(new String[0]);
    }
    String[] got = answer.join();
    if (got.length == 0) {
      throw gone(null);
    }
    return got;
  }

  private void read(BufferedReader in) {
    try {
      for (String line = in.readLine(); line != null; line = in.readLine()) {
        String[] parts = line.split("\t");
        CompletableFuture<String[]> question = asked.remove(parts[0]);
        if (question != null) {
          question.complete(parts);
        }
      }
    } catch (IOException e) {
      // An end like any other.
    }
    ended = true;
    asked.values().forEach(question -> question.complete(new String[0]));
  }

  private static DieInputException gone(Throwable cause) {
    return ArchiveFolder.refused(
        "the cluster no longer answers; what is done is kept: call again when it does.", cause);
  }

  private static String encoded(String text) {
    return URLEncoder.encode(text, StandardCharsets.UTF_8);
  }

  private static String decoded(String text) {
    return URLDecoder.decode(text, StandardCharsets.UTF_8);
  }

  @Override
  public SortedMap<String, String> identity() {
    return identity;
  }

  /** Tells the coordinator that there is nothing more to do. */
  @Override
  public void close() {
    try {
      socket.close();
    } catch (IOException e) {
      // It has ended already.
    }
  }
}
