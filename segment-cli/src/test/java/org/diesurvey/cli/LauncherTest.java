package org.diesurvey.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.File;
import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The launcher in a tree of its own, with stand-ins for Java and Maven. */
class LauncherTest {
  @TempDir Path temp;
  private Path project;
  private Path launcher;
  private Path tools;

  private record Result(int code, String out, String err) {}

  @BeforeEach
  void layOut() throws IOException {
    Assumptions.assumeTrue(
        File.separatorChar == '/' && Files.isExecutable(Path.of("/bin/sh")), "no POSIX shell here");
    project = temp.resolve("my project");
    launcher = project.resolve("segment-cli/bin/diesurvey");
    Files.createDirectories(launcher.getParent());
    Files.copy(Path.of("bin/diesurvey"), launcher);
    script(launcher, null);
    Files.createDirectories(project.resolve("segment-cli/src/main"));
    Files.writeString(project.resolve("pom.xml"), "<project/>");
    tools = Files.createDirectory(temp.resolve("tools"));
  }

  private static void script(Path file, String text) throws IOException {
    if (text != null) {
      Files.writeString(file, "#!/bin/sh\n" + text + "\n");
    }
    Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("rwxr-xr-x"));
  }

  /** A Java that tells its arguments, a Maven that makes the jar. */
  private void provideTools() throws IOException {
    script(tools.resolve("java"), "for a in \"$@\"; do printf '<%s>\\n' \"$a\"; done; exit 7");
    script(tools.resolve("javac"), "exit 0");
    script(
        tools.resolve("mvn"),
        "mkdir -p segment-cli/target/lib && echo made > segment-cli/target/segment-cli-1.jar");
  }

  private Result run(Path command, Path from, String... args)
      throws IOException, InterruptedException {
    String[] line = new String[args.length + 1];
    line[0] = command.toString();
    System.arraycopy(args, 0, line, 1, args.length);
    ProcessBuilder builder = new ProcessBuilder(line).directory(from.toFile());
    Map<String, String> environment = builder.environment();
    environment.clear();
    environment.put("PATH", tools + ":" + standardTools());
    Path out = temp.resolve("out.txt");
    Path err = temp.resolve("err.txt");
    int code = builder.redirectOutput(out.toFile()).redirectError(err.toFile()).start().waitFor();
    return new Result(
        code,
        Files.readString(out, StandardCharsets.UTF_8),
        Files.readString(err, StandardCharsets.UTF_8));
  }

  /** A folder with the few tools that the launcher needs, so that no other Java is found. */
  private Path standardTools() throws IOException {
    Path bin = temp.resolve("bin");
    if (!Files.exists(bin)) {
      Files.createDirectory(bin);
      for (String tool :
          List.of(
              "readlink",
              "dirname",
              "find",
              "head",
              "mktemp",
              "rm",
              "touch",
              "mkdir",
              "mv",
              "cat",
              "cksum",
              "sort")) {
        String folder = Files.exists(Path.of("/usr/bin", tool)) ? "/usr/bin/" : "/bin/";
        script(bin.resolve(tool), "exec " + folder + tool + " \"$@\"");
      }
    }
    return bin;
  }

  @Test
  void withoutJava_saysWhatToInstall() throws Exception {
    Result r = run(launcher, temp, "demo");
    assertEquals(2, r.code());
    assertTrue(r.err().contains("Java is missing") && r.err().contains("17"), r.err());
  }

  @Test
  void withoutMaven_saysWhatToInstall() throws Exception {
    provideTools();
    Files.delete(tools.resolve("mvn"));
    Result r = run(launcher, temp, "demo");
    assertEquals(2, r.code());
    assertTrue(r.err().contains("Maven is missing"), r.err());
  }

  @Test
  void archiveOfClasses_isMadeOnceForAJar_andNotMissed() throws Exception {
    provideTools();
    Path made = temp.resolve("made.txt");
    script(
        tools.resolve("java"),
        "for a in \"$@\"; do case $a in -XX:ArchiveClassesAtExit=*) echo one >>'"
            + made
            + "'; : >\"${a#*=}\"; exit 0 ;; esac; done; exit 7");
    Path archive = project.resolve("segment-cli/target/classes.jsa");
    assertEquals(7, run(launcher, temp, "demo").code());
    assertTrue(Files.isRegularFile(archive), "an archive");
    assertEquals(7, run(launcher, temp, "demo").code());
    assertEquals(1, Files.readAllLines(made).size());
    Path jar = project.resolve("segment-cli/target/segment-cli-1.jar");
    Files.setLastModifiedTime(
        archive, FileTime.fromMillis(Files.getLastModifiedTime(jar).toMillis() - 2000));
    assertEquals(7, run(launcher, temp, "demo").code());
    assertEquals(2, Files.readAllLines(made).size(), "made again for a newer jar");
    script(tools.resolve("java"), "exit 7");
    Files.delete(archive);
    assertEquals(7, run(launcher, temp, "demo").code(), "a Java that makes none");
    assertEquals(0, Files.size(archive), "and is not asked again");
  }

  @Test
  void throughALinkWithBlanks_buildsOnceAndPassesArgumentsAndExitCode() throws Exception {
    provideTools();
    Path link = temp.resolve("a link");
    Files.createSymbolicLink(link, Path.of("my project/segment-cli/bin/diesurvey"));
    Result first = run(link, temp.resolve("tools"), "segment", "my die.png", "--out", "");
    assertEquals(7, first.code(), first.err());
    assertTrue(first.err().contains("building once"), first.err());
    assertTrue(first.out().contains("<segment>\n<my die.png>\n<--out>\n<>"), first.out());
    assertTrue(first.out().contains("<-Djava.awt.headless=true>"), first.out());
    Result second = run(link, temp.resolve("tools"), "demo");
    assertEquals("", second.err());
  }

  @Test
  void changedSources_areBuiltAgain() throws Exception {
    provideTools();
    run(launcher, temp, "demo");
    Path source = Files.writeString(project.resolve("segment-cli/src/main/A.java"), "class A {}");
    Files.setLastModifiedTime(source, later(60));
    assertTrue(run(launcher, temp, "demo").err().contains("sources have changed"));
  }

  @Test
  void newDatesAlone_buildNothing() throws Exception {
    provideTools();
    Path source = Files.writeString(project.resolve("segment-cli/src/main/A.java"), "class A {}");
    run(launcher, temp, "demo");
    Files.setLastModifiedTime(source, later(60));
    Files.setLastModifiedTime(project.resolve("pom.xml"), later(60));
    assertEquals("", run(launcher, temp, "demo").err());
  }

  private static FileTime later(int seconds) {
    return FileTime.fromMillis(System.currentTimeMillis() + 1000L * seconds);
  }

  @Test
  void oneSurvey_isCompiledQuickly_longRunsAreNot() throws Exception {
    provideTools();
    String quick = "<-XX:TieredStopAtLevel=1>";
    assertTrue(run(launcher, temp, "segment", "a.png").out().contains(quick));
    assertTrue(run(launcher, temp, "--version").out().contains(quick));
    assertFalse(run(launcher, temp, "batch", "photos").out().contains(quick));
    Files.write(temp.resolve("small.tif"), new byte[1000]);
    try (RandomAccessFile large = new RandomAccessFile(temp.resolve("large.tif").toFile(), "rw")) {
      large.setLength(200_000_000);
    }
    assertTrue(run(launcher, temp, "segment", "small.tif").out().contains(quick));
    assertFalse(run(launcher, temp, "segment", "large.tif").out().contains(quick));
    assertFalse(run(launcher, temp, "score-comparisons").out().contains(quick));
  }

  @Test
  void failedBuild_showsWhyAndRunsNothing() throws Exception {
    provideTools();
    script(tools.resolve("mvn"), "echo the reason; exit 1");
    Result r = run(launcher, temp, "demo");
    assertEquals(2, r.code());
    assertTrue(r.err().contains("the reason") && r.err().contains("build failed"), r.err());
    assertEquals("", r.out());
  }
}
