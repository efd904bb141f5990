package org.diesurvey.cli;

import java.io.File;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/**
 * A real Spark of its own: a standalone master and workers on the loopback interface, each a
 * process, made of the jars that the module segment-spark is compiled with.
 */
final class SparkCluster implements AutoCloseable {
  /** List of the jars, written by the build of segment-spark. */
  static final Path JARS = Path.of("spark", "target", "spark-jars.txt");

  /** Classes of the store that tests write to. */
  static final Path STORE_CLASSES = Path.of("spark", "target", "test-classes");

  /** Spark's own scripts open these; list of its class JavaModuleOptions, 4.2. */
  private static final String[] OPENED = {
    "java.lang",
    "java.lang.invoke",
    "java.lang.reflect",
    "java.io",
    "java.net",
    "java.nio",
    "java.util",
    "java.util.concurrent",
    "java.util.concurrent.atomic",
    "sun.nio.ch",
    "sun.nio.cs",
    "sun.security.action",
    "sun.util.calendar"
  };

  private final Path folder;
  private final List<Process> processes = new ArrayList<>();
  private final String master;

  /** Makes the folder of Spark, and starts a master and two workers of one core. */
  SparkCluster(Path folder) throws Exception {
    this.folder = folder;
    Path jars = Files.createDirectories(home().resolve("jars"));
    for (String jar : Files.readString(JARS).trim().split(File.pathSeparator)) {
      Path file = Path.of(jar);
      Files.createSymbolicLink(jars.resolve(file.getFileName().toString()), file);
    }
    Path submit = Files.createDirectories(home().resolve("bin")).resolve("spark-submit");
    Files.writeString(
        submit,
        "#!/bin/sh\nexec '"
            + String.join("' '", java("org.apache.spark.deploy.SparkSubmit"))
            + "' \"$@\"\n");
    Files.setPosixFilePermissions(submit, PosixFilePermissions.fromString("rwxr-xr-x"));
    start("master", "org.apache.spark.deploy.master.Master", "--port", "0", "--webui-port", "0");
    master = said("master", "(spark://127\\.0\\.0\\.1:[0-9]+)");
    startWorker();
    startWorker();
    said("worker-1", "(registered with master)");
    said("worker-2", "(registered with master)");
  }

  /** One more worker of one core. */
  private String startWorker() throws IOException {
    String name = "worker-" + processes.size();
    start(
        name,
        "org.apache.spark.deploy.worker.Worker",
        "--cores",
        "1",
        "--memory",
        "512m",
        "--webui-port",
        "0",
        "--work-dir",
        folder.resolve(name).toString(),
        master);
    return name;
  }

  /** Puts another worker in the place of one that was killed. */
  void addWorker() throws Exception {
    said(startWorker(), "(registered with master)");
  }

  Path home() {
    return folder.resolve("spark");
  }

  /** Options for spark-submit; slow tasks are run twice, so that some surely are. */
  String options() {
    return "--master "
        + master
        + " --driver-memory 512m --executor-memory 512m"
        + " --conf spark.driver.host=127.0.0.1 --conf spark.driver.bindAddress=127.0.0.1"
        + " --conf spark.ui.enabled=false --conf spark.speculation=true"
        + " --conf spark.speculation.quantile=0.1 --conf spark.speculation.multiplier=1.01"
        + " --conf spark.speculation.minTaskRuntime=100ms";
  }

  static Map<String, String> environment() {
    return Map.of("SPARK_LOCAL_IP", "127.0.0.1", "SPARK_SCALA_VERSION", "2.13");
  }

  /** Kills a worker, counted from 1, as a loss of power would; its executor goes with it. */
  void killWorker(int number) throws InterruptedException {
    processes.get(number).destroyForcibly().waitFor();
  }

  /** What a process has written so far. */
  String log(String name) throws IOException {
    return Files.readString(folder.resolve(name + ".log"), StandardCharsets.UTF_8);
  }

  private List<String> java(String main) {
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.addAll(List.of("-Xmx512m", "-XX:TieredStopAtLevel=1"));
    for (String name : OPENED) {
      command.add("--add-opens=java.base/" + name + "=ALL-UNNAMED");
    }
    command.addAll(List.of("-cp", home().resolve("jars") + File.separator + "*", main));
    return command;
  }

  private void start(String name, String main, String... words) throws IOException {
    List<String> command = java(main);
    command.addAll(List.of("--host", "127.0.0.1"));
    command.addAll(List.of(words));
    ProcessBuilder builder =
        new ProcessBuilder(command)
            .redirectErrorStream(true)
            .redirectOutput(folder.resolve(name + ".log").toFile());
    builder.environment().putAll(environment());
    builder.environment().put("SPARK_HOME", home().toString());
    processes.add(builder.start());
  }

  private String said(String name, String pattern) throws Exception {
    Pattern wanted = Pattern.compile(pattern);
    for (int i = 0; i < 600; i++) {
      Matcher m = wanted.matcher(log(name));
      if (m.find()) {
        return m.group(1);
      }
      Thread.sleep(100);
    }
    throw new IllegalStateException(name + " did not say " + pattern + ":\n" + log(name));
  }

  @Override
  public void close() throws IOException, InterruptedException {
    for (int i = processes.size() - 1; i >= 0; i--) {
      processes.get(i).destroy();
    }
    for (Process p : processes) {
      if (!p.waitFor(20, TimeUnit.SECONDS)) {
        p.destroyForcibly().waitFor();
      }
    }
    try (Stream<Path> links = Files.list(home().resolve("jars"))) {
      for (Path link : links.toList()) {
        Files.delete(link);
      }
    }
  }
}
