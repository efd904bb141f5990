package org.diesurvey.files;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;

/** The kinds of folders of results, with what tells them and what lies in them. */
public enum ResultKind {
  /** Of one photograph. */
  SURVEY(
      "survey",
      Map.of("survey.json", "\"diesurvey-survey\""),
      Set.of(
          "label-map.png",
          "classes.png",
          "confidence-map.png",
          "overlay.png",
          "regions.geojson",
          "regions.csv",
          "report.html",
          "report.pdf",
          "thumbnail.png",
          "photograph.json")),
  /** Of two revisions or more. */
  COMPARISON(
      "comparison",
      Map.of("comparison.json", "\"diesurvey-comparison\"", "revisions.html", "<title>Revisions"),
      Set.of(
          "changes.geojson",
          "changes.csv",
          "comparison.html",
          "comparison.pdf",
          "earlier-survey.json",
          "later-survey.json",
          "revisions.csv"));

  private static final int START = 2000;

  private final String word;
  private final Map<String, String> documents;
  private final Set<String> others;

  ResultKind(String word, Map<String, String> documents, Set<String> others) {
    this.word = word;
    this.documents = documents;
    this.others = others;
  }

  /** For sentences. */
  public String word() {
    return word;
  }

  /** Names that files of a result have, in its folder or one below it. */
  public Set<String> names() {
    Set<String> names = new TreeSet<>(others);
    names.addAll(documents.keySet());
    names.add(Checksums.LIST);
    names.add(Checksums.BEGUN);
    return names;
  }

  /** Names of the documents of all kinds. */
  public static Set<String> allDocuments() {
    Set<String> names = new TreeSet<>();
    for (ResultKind kind : values()) {
      names.addAll(kind.documents.keySet());
    }
    return names;
  }

  /** Whether a folder has a document of ours, with or without its list of checksums. */
  public static boolean tells(Path folder) {
    for (ResultKind kind : values()) {
      for (String document : kind.documents.keySet()) {
        if (kind.says(folder.resolve(document))) {
          return true;
        }
      }
    }
    return false;
  }

  /** Names of the documents, of which one is enough. */
  Set<String> documents() {
    return documents.keySet();
  }

  /** Whether the document says of itself that it is one of ours, of whatever version. */
  boolean says(Path document) {
    String words = documents.get(document.getFileName().toString());
    try (var in = Files.newInputStream(document)) {
      return new String(in.readNBytes(START), StandardCharsets.UTF_8).contains(words);
    } catch (IOException e) {
      return false;
    }
  }
}
