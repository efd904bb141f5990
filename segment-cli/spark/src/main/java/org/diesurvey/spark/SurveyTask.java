package org.diesurvey.spark;

import java.io.IOException;
import java.io.InputStream;
import java.io.Serializable;
import java.io.UncheckedIOException;
import java.net.URLDecoder;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.DigestInputStream;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.stream.Collectors;
import org.apache.spark.SparkFiles;
import org.apache.spark.TaskContext;
import scala.collection.Iterator;
import scala.runtime.AbstractFunction1;

/** What an executor does with one line of a batch; the answer is one line too. */
final class SurveyTask extends AbstractFunction1<Iterator<String>, String> implements Serializable {
  private static final long serialVersionUID = 1L;

  private final ArrayList<String> jars;
  private final String main;
  private final ArrayList<String> words;
  private final int heapMib;

  /**
   * @param jars names of the shipped files that make the class path of worker processes
   * @param main their main class
   * @param words of their call; @NAME is a shipped file
   * @param heapMib memory of each
   */
  SurveyTask(List<String> jars, String main, List<String> words, int heapMib) {
    this.jars = new ArrayList<>(jars);
    this.main = main;
    this.words = new ArrayList<>(words);
    this.heapMib = heapMib;
  }

  @Override
  public String apply(Iterator<String> lines) {
    String[] parts = lines.next().split("\t", 6);
    String answer;
    try {
      answer =
          switch (parts[1]) {
            case "checksum" -> "sum\t" + checksum(decoded(parts[2]));
            case "list" ->
                "listed\t"
                    + StoredFiles.below(decoded(parts[2])).stream()
                        .map(SurveyTask::encoded)
                        .collect(Collectors.joining("\t"));
            case "survey" -> survey(parts);
            default -> throw new IllegalArgumentException(parts[1]);
          };
    } catch (IOException e) {
      answer = "unreadable\t" + encoded(e.toString());
    }
    return parts[0] + "\t" + answer;
  }

  private static String checksum(String photo) throws IOException {
    try (InputStream raw = StoredFiles.open(photo);
        DigestInputStream in = new DigestInputStream(raw, MessageDigest.getInstance("SHA-256"))) {
      in.transferTo(java.io.OutputStream.nullOutputStream());
      return HexFormat.of().formatHex(in.getMessageDigest().digest());
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }

  /**
   * Each attempt writes to a folder of its own; the batch takes that of the attempt that counts. In
   * a store it gets there file by file, complete before it is named.
   */
  private String survey(String[] parts) throws IOException {
    String place =
        decoded(parts[3]) + "." + TaskContext.get().taskAttemptId() + "-" + System.nanoTime();
    boolean toStore = StoredFiles.isUri(place);
    Path parent = toStore ? Files.createTempDirectory("diesurvey-survey-") : null;
    Path folder = toStore ? parent.resolve("survey") : Path.of(place);
    try (StoredFiles.Copy photo = StoredFiles.local(decoded(parts[2]))) {
      WorkerProcess.Answer answer =
          WorkerProcess.ask(
              command(),
              photo.file() + "\t" + folder + "\t" + parts[5],
              Duration.ofMillis(Long.parseLong(parts[4])));
      return switch (answer.kind()) {
        case ANSWERED -> {
          if (toStore && Files.isDirectory(folder)) {
            put(folder, place);
          }
          yield "answered\t" + encoded(place) + "\t" + answer.text();
        }
        case LATE -> "late";
        case LOST -> "lost\t" + encoded(answer.text());
      };
    } finally {
      if (toStore) {
        StoredFiles.delete(parent);
      }
    }
  }

  /** A store that refuses is no fault of the photograph: Spark tries the task again. */
  private static void put(Path folder, String place) {
    try {
      StoredFiles.put(folder, place);
    } catch (IOException e) {
      throw new UncheckedIOException("the store of the archive cannot be written", e);
    }
  }

  private List<String> command() {
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.add("-Xmx" + heapMib + "m");
    command.add("-XX:+UseSerialGC");
    command.add("-Djava.awt.headless=true");
    command.add(
        "-XX:ErrorFile=" + System.getProperty("java.io.tmpdir") + "/diesurvey-crash-%p.log");
    command.add("-cp");
    command.add(
        jars.stream().map(SparkFiles::get).collect(Collectors.joining(java.io.File.pathSeparator)));
    command.addAll(List.of(main, "batch-worker"));
    for (String word : words) {
      command.add(word.startsWith("@") ? SparkFiles.get(word.substring(1)) : word);
    }
    return command;
  }

  static String encoded(String text) {
    return URLEncoder.encode(text, StandardCharsets.UTF_8);
  }

  private static String decoded(String text) {
    return URLDecoder.decode(text, StandardCharsets.UTF_8);
  }
}
