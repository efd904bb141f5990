package org.diesurvey.spark;

import java.io.IOException;
import java.net.URI;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.jar.Attributes;
import java.util.jar.JarFile;
import org.apache.spark.SparkConf;
import org.apache.spark.api.java.JavaSparkContext;

/** The Spark application: a batch of this program whose photographs go to the cluster. */
public final class SparkBatch {
  /** Variable that tells the batch where its coordinator listens: "PORT:TOKEN". */
  public static final String VARIABLE = "DIESURVEY_CLUSTER";

  private static final int EXECUTOR_PATIENCE_MS = 20_000;

  private SparkBatch() {}

  /**
   * Runs a batch to its end, in a process started with spark-submit.
   *
   * @param jar of the command line; its manifest names the libraries beside it
   * @param main its main class
   * @param words of the command, "batch" first
   * @return exit code of the batch
   */
  public static int run(Path jar, String main, List<String> words) throws IOException {
    SparkConf conf = new SparkConf();
    conf.setIfMissing("spark.app.name", "Diesurvey batch");
    try (JavaSparkContext spark = new JavaSparkContext(conf)) {
      List<String> names = new ArrayList<>();
      for (Path part : classPath(jar)) {
        spark.addFile(part.toString());
        names.add(part.getFileName().toString());
      }
      spark.addJar(ownJar().toString());
      try (Coordinator coordinator = new Coordinator(spark, slots(spark), names, main)) {
        Process batch = start(jar, main, words, coordinator.address());
        Thread end = new Thread(batch::destroy);
        Runtime.getRuntime().addShutdownHook(end);
        coordinator.serve(batch);
        int code = batch.waitFor();
        Runtime.getRuntime().removeShutdownHook(end);
        return code;
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IOException("interrupted", e);
    }
  }

  private static Process start(Path jar, String main, List<String> words, String address)
      throws IOException {
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.add("-XX:+UseSerialGC");
    command.add("-Djava.awt.headless=true");
    for (String stream : new String[] {"stdout", "stderr"}) {
      String name = "diesurvey." + stream + ".terminal";
      command.add("-D" + name + "=" + System.getProperty(name, "false"));
    }
    command.addAll(List.of("-cp", jar.toString(), main));
    command.addAll(words);
    ProcessBuilder builder = new ProcessBuilder(command).inheritIO();
    builder.environment().put(VARIABLE, address);
    return builder.start();
  }

  /** Cores of the executors that came up within some seconds; more may follow, and are used. */
  private static int slots(JavaSparkContext spark) throws InterruptedException {
    long end = System.currentTimeMillis() + EXECUTOR_PATIENCE_MS;
    while (!spark.isLocal()
        && spark.sc().getExecutorMemoryStatus().size() < 2
        && System.currentTimeMillis() < end) {
      Thread.sleep(100);
    }
    return Math.max(1, spark.defaultParallelism());
  }

  /** The jar and the libraries that its manifest names. */
  static List<Path> classPath(Path jar) throws IOException {
    List<Path> parts = new ArrayList<>(List.of(jar));
    try (JarFile open = new JarFile(jar.toFile())) {
      String named = open.getManifest().getMainAttributes().getValue(Attributes.Name.CLASS_PATH);
      for (String part : (named == null ? "" : named).trim().split(" +")) {
        if (!part.isEmpty()) {
          parts.add(Path.of(jar.toUri().resolve(part)));
        }
      }
    }
    return parts;
  }

  private static Path ownJar() {
    return Path.of(
        URI.create(
            SparkBatch.class.getProtectionDomain().getCodeSource().getLocation().toString()));
  }
}
