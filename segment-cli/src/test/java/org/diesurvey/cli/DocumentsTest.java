package org.diesurvey.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.Writer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;

/**
 * What the documents name exists: links, classes and their members, commands, options, keys of the
 * pages. Pages of results are dated and keep the names of their day, so only their links are held
 * to this.
 */
class DocumentsTest {
  private static final Path ROOT = Path.of("..").toAbsolutePath().normalize();
  private static final Pattern LINK = Pattern.compile("\\]\\(([^)\\s]+)\\)");
  private static final Pattern CODE = Pattern.compile("`([^`]+)`");
  private static final Pattern FENCE = Pattern.compile("(?ms)^```.*?^```\\s*?$");
  private static final Pattern CLASS_NAME = Pattern.compile("[A-Z][a-z0-9]+(?:[A-Z][a-z0-9]*)+");
  private static final Pattern MEMBER =
      Pattern.compile("([A-Z][A-Za-z0-9]+)\\.([A-Za-z_]+)(?:\\(.*\\))?");
  private static final Pattern KEY = Pattern.compile("[A-Z][a-z]+(?: [a-z]+)*");
  private static final Pattern OPTION = Pattern.compile("(?<![\\w-])--[a-z][a-z-]*");

  /** Options of other programs that the documents pass on. */
  private static final Set<String> FOREIGN =
      Set.of("--conf", "--packages", "--master", "--executor-cores", "--prefix");

  private static final List<Path> DOCUMENTS = new ArrayList<>();

  /** Text of each Java source by the simple name of its class. */
  private static final Map<String, String> CLASSES = new HashMap<>();

  private static final StringBuilder SOURCES = new StringBuilder();
  private static final StringBuilder PAGES = new StringBuilder();

  @BeforeAll
  static void read() throws IOException {
    DOCUMENTS.add(ROOT.resolve("README.md"));
    DOCUMENTS.add(ROOT.resolve("DEVELOPERS.md"));
    for (String module : List.of("segment-cli", "segment-core", "testdata-synthetic")) {
      DOCUMENTS.addAll(files(ROOT.resolve(module).resolve("docs"), ".md"));
      for (Path source : files(ROOT.resolve(module), ".java")) {
        String text = Files.readString(source);
        CLASSES.put(source.getFileName().toString().replace(".java", ""), text);
        SOURCES.append(text);
      }
    }
    Path report = ROOT.resolve("segment-core/src/main/resources/org/diesurvey/report");
    for (String kind : List.of(".js", ".html")) {
      for (Path part : files(report, kind)) {
        PAGES.append(Files.readString(part));
      }
    }
    for (Path part :
        files(ROOT.resolve("segment-core/src/main/java/org/diesurvey/report"), ".java")) {
      PAGES.append(Files.readString(part));
    }
  }

  @Test
  void everyLinkLeadsSomewhere() throws IOException {
    List<String> broken = new ArrayList<>();
    int links = 0;
    for (Path document : DOCUMENTS) {
      Matcher m = LINK.matcher(FENCE.matcher(Files.readString(document)).replaceAll(""));
      while (m.find()) {
        String target = m.group(1);
        if (target.contains("://")) {
          continue;
        }
        links++;
        if (!leads(document, target)) {
          broken.add(name(document) + ": " + target);
        }
      }
    }
    assertEquals(List.of(), broken);
    assertTrue(links > 100, "links found: " + links);
  }

  @Test
  void everyDocumentIsReachedFromTheReadme() throws IOException {
    Set<Path> reached = new HashSet<>();
    List<Path> todo = new ArrayList<>(List.of(ROOT.resolve("README.md")));
    while (!todo.isEmpty()) {
      Path document = todo.remove(todo.size() - 1);
      if (!reached.add(document) || !document.toString().endsWith(".md")) {
        continue;
      }
      Matcher m = LINK.matcher(Files.readString(document));
      while (m.find()) {
        if (!m.group(1).contains("://")) {
          todo.add(document.resolveSibling(m.group(1).replaceAll("#.*", "")).normalize());
        }
      }
    }
    assertEquals(List.of(), DOCUMENTS.stream().filter(d -> !reached.contains(d)).toList());
  }

  @Test
  void everyClassAndMemberExists() throws IOException {
    Set<String> missing = new TreeSet<>();
    int named = 0;
    for (Path document : current()) {
      for (String span : spans(document)) {
        Matcher member = MEMBER.matcher(span);
        if (member.matches() && !span.contains("/") && knownClass(member.group(1))) {
          named++;
          String text = CLASSES.getOrDefault(member.group(1), SOURCES.toString());
          if (!Pattern.compile("\\b" + member.group(2) + "\\b").matcher(text).find()) {
            missing.add(name(document) + ": " + span);
          }
        } else if (CLASS_NAME.matcher(span).matches()) {
          named++;
          if (!knownClass(span)) {
            missing.add(name(document) + ": " + span);
          }
        }
      }
    }
    assertEquals(Set.of(), missing);
    assertTrue(named > 80, "classes found: " + named);
  }

  @Test
  void everyKeyOfThePagesExists() throws IOException {
    Set<String> missing = new TreeSet<>();
    for (Path document : current()) {
      for (String span : spans(document)) {
        if (KEY.matcher(span).matches() && !knownClass(span) && PAGES.indexOf(span) < 0) {
          missing.add(name(document) + ": " + span);
        }
      }
    }
    assertEquals(Set.of(), missing);
  }

  @Test
  void everyCommandAndOptionExists() throws IOException {
    CommandLine line = Diesurvey.commandLine(quiet());
    Set<String> every = options(line, new TreeSet<>(FOREIGN));
    Set<String> missing = new TreeSet<>();
    int calls = 0;
    for (Path document : current()) {
      List<String> texts = new ArrayList<>(spans(document));
      Matcher fence = FENCE.matcher(Files.readString(document));
      while (fence.find()) {
        texts.addAll(List.of(fence.group().replace("\\\n", " ").split("\n")));
      }
      for (String text : texts) {
        Matcher call =
            Pattern.compile("(?:^|.*[/(])diesurvey ([a-z][a-z-]*)(?: ([a-z]+))?(.*)").matcher(text);
        Set<String> allowed = every;
        if (call.matches()) {
          calls++;
          CommandLine command = line.getSubcommands().get(call.group(1));
          if (command == null) {
            missing.add(name(document) + ": diesurvey " + call.group(1));
            continue;
          }
          if (!command.getSubcommands().isEmpty()) {
            command = command.getSubcommands().get(call.group(2));
          }
          if (command == null) {
            missing.add(name(document) + ": " + text);
            continue;
          }
          allowed = options(command, new TreeSet<>(FOREIGN));
        } else if (text.matches("(?s).*\\b(mvn|npm|node|apt-get)\\b.*")) {
          continue;
        }
        Matcher option = OPTION.matcher(text);
        while (option.find()) {
          if (!allowed.contains(option.group())) {
            missing.add(name(document) + ": " + option.group() + " in " + text);
          }
        }
      }
    }
    assertEquals(Set.of(), missing);
    assertTrue(calls > 30, "calls found: " + calls);
  }

  @Test
  void everyVisibleCommandAndWarningIsDescribed() throws IOException {
    String commands = Files.readString(ROOT.resolve("segment-cli/docs/commands.md"));
    CommandLine line = Diesurvey.commandLine(quiet());
    for (var command : line.getSubcommands().entrySet()) {
      CommandSpec spec = command.getValue().getCommandSpec();
      if (!spec.usageMessage().hidden()) {
        assertTrue(
            commands.contains("`diesurvey " + command.getKey()), command.getKey() + " is missing");
      }
    }
    Matcher id =
        Pattern.compile("`([a-z-]+)`")
            .matcher(
                Pattern.compile("(?m)^\\| (`.*?`) \\|.*$")
                    .matcher(commands.substring(commands.indexOf("## Warnings")))
                    .results()
                    .map(r -> r.group(1))
                    .collect(Collectors.joining(" ")));
    int warnings = 0;
    while (id.find()) {
      warnings++;
      assertTrue(SOURCES.indexOf('"' + id.group(1) + '"') >= 0, "no warning " + id.group(1));
    }
    assertTrue(warnings > 10, "warnings found: " + warnings);
  }

  private static boolean leads(Path document, String target) throws IOException {
    int hash = target.indexOf('#');
    String file = hash < 0 ? target : target.substring(0, hash);
    Path path = file.isEmpty() ? document : document.resolveSibling(file).normalize();
    if (!path.startsWith(ROOT) || !Files.exists(path)) {
      return false;
    }
    return hash < 0 || headings(path).contains(target.substring(hash + 1));
  }

  /** Headings as the names that links use: lower case, spaces as hyphens, no other signs. */
  private static Set<String> headings(Path document) throws IOException {
    Set<String> out = new HashSet<>();
    for (String line : Files.readAllLines(document)) {
      if (line.startsWith("#")) {
        out.add(
            line.replaceAll("^#+ ", "")
                .toLowerCase(Locale.ROOT)
                .replaceAll("[^\\p{L}\\p{N} -]", "")
                .replace(' ', '-'));
      }
    }
    return out;
  }

  private static List<Path> current() {
    return DOCUMENTS.stream().filter(d -> !d.toString().contains("results")).toList();
  }

  /** Words set as code, outside of blocks, on one line each. */
  private static List<String> spans(Path document) throws IOException {
    List<String> out = new ArrayList<>();
    Matcher m = CODE.matcher(FENCE.matcher(Files.readString(document)).replaceAll(""));
    while (m.find()) {
      out.add(m.group(1).replace('\n', ' '));
    }
    return out;
  }

  private static boolean knownClass(String name) {
    return CLASSES.containsKey(name)
        || SOURCES.indexOf("record " + name + "(") >= 0
        || SOURCES.indexOf("class " + name + " ") >= 0
        || SOURCES.indexOf("enum " + name + " ") >= 0;
  }

  private static Set<String> options(CommandLine line, Set<String> into) {
    line.getCommandSpec().options().forEach(o -> into.addAll(List.of(o.names())));
    line.getSubcommands().values().forEach(s -> options(s, into));
    return into;
  }

  private static List<Path> files(Path folder, String end) throws IOException {
    try (Stream<Path> all = Files.walk(folder)) {
      return all.filter(p -> p.toString().endsWith(end))
          .filter(p -> !p.toString().contains("target") && !p.toString().contains("node_modules"))
          .sorted()
          .toList();
    }
  }

  private static Terminal quiet() {
    PrintWriter nowhere = new PrintWriter(Writer.nullWriter());
    return new Terminal(nowhere, nowhere, false, false, true, variable -> null);
  }

  private static String name(Path document) {
    return ROOT.relativize(document).toString();
  }
}
