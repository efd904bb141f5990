package org.diesurvey.archive.worker;

import java.io.IOException;
import java.net.URLDecoder;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.Function;
import org.diesurvey.archive.store.ArchiveStore;

/** A store that the coordinator of a cluster reads and writes; see {@link ClusterSurveyor}. */
final class ClusterStore implements ArchiveStore {
  private final String place;
  private final Function<String[], String[]> coordinator;

  /**
   * @param place URI of the archive
   * @param coordinator takes the words of a question and gives those of the answer, number first
   */
  ClusterStore(String place, Function<String[], String[]> coordinator) {
    this.place = place.replaceAll("/+$", "");
    this.coordinator = coordinator;
  }

  @Override
  public String place() {
    return place;
  }

  private String uri(String name) {
    return name.isEmpty() ? place : place + "/" + name;
  }

  private String[] ask(String what, String... words) throws IOException {
    String[] question = new String[words.length + 1];
    question[0] = what;
    for (int i = 0; i < words.length; i++) {
      question[i + 1] = URLEncoder.encode(words[i], StandardCharsets.UTF_8);
    }
    String[] answer = coordinator.apply(question);
    if (answer[1].equals("refused")) {
      throw new IOException(decoded(answer[2]));
    }
    return answer;
  }

  private static String decoded(String text) {
    return URLDecoder.decode(text, StandardCharsets.UTF_8);
  }

  @Override
  public boolean make(String name, String text) throws IOException {
    return ask("make", uri(name), text)[1].equals("done");
  }

  @Override
  public void put(Path file, String name) throws IOException {
    ask("put", file.toString(), uri(name));
  }

  @Override
  public boolean get(String name, Path file) throws IOException {
    return ask("get", uri(name), file.toString())[1].equals("done");
  }

  @Override
  public SortedMap<String, Long> below(String folder) throws IOException {
    SortedMap<String, Long> found = new TreeMap<>();
    String[] answer = ask("below", uri(folder));
    for (int i = 2; i + 1 < answer.length; i += 2) {
      found.put(decoded(answer[i]), Long.valueOf(answer[i + 1]));
    }
    return found;
  }

  @Override
  public void move(String from, String to, String last) throws IOException {
    ask("move", uri(from), uri(to), last);
  }

  @Override
  public void remove(String name) throws IOException {
    ask("remove", uri(name));
  }
}
