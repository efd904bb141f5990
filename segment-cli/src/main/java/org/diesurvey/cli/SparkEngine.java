package org.diesurvey.cli;

import java.io.File;
import java.io.IOException;
import java.lang.reflect.InvocationTargetException;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.UnaryOperator;

/**
 * The ways into a batch on a cluster. Called by a person, it starts spark-submit with this
 * program's jar. There, in the process of Spark, it hands over to org.diesurvey.spark, which starts
 * this program again, beside Spark, with a variable that says where the cluster is to be reached.
 */
final class SparkEngine {
  private static final String COORDINATOR = "org.diesurvey.spark.SparkBatch";
  private static final String VARIABLE = "DIESURVEY_CLUSTER";

  private SparkEngine() {}

  /** Where the cluster is to be reached, "PORT:TOKEN"; empty if nobody has said so. */
  static Optional<String> address(UnaryOperator<String> environment) {
    return Optional.ofNullable(environment.apply(VARIABLE)).filter(a -> a.matches("[0-9]+:.+"));
  }

  /** Whether this process was started by spark-submit. */
  static boolean submitted() {
    return System.getProperty("spark.submit.deployMode") != null;
  }

  /**
   * Runs the batch by way of Spark.
   *
   * @param options words for spark-submit
   * @return exit code of the batch
   */
  static int run(Diesurvey root, List<String> options) throws IOException, InterruptedException {
    if (submitted()) {
      return coordinate(jar(), root.words());
    }
    Path submit = submit(root.terminal().environment());
    Path jar = jar();
    List<String> command = new ArrayList<>();
    command.add(submit.toString());
    command.addAll(List.of("--conf", "spark.log.level=WARN"));
    command.addAll(options);
    command.add(jar.toString());
    command.addAll(root.words());
    return new ProcessBuilder(command).inheritIO().start().waitFor();
  }

  /** By name, because the class is only usable where Spark is. */
  private static int coordinate(Path jar, List<String> words) throws IOException {
    try {
      return (int)
          Class.forName(COORDINATOR)
              .getMethod("run", Path.class, String.class, List.class)
              .invoke(null, jar, Diesurvey.class.getName(), words);
    } catch (InvocationTargetException e) {
      throw new IOException("the Spark application failed", e.getCause());
    } catch (ReflectiveOperationException e) {
      throw new IllegalStateException("the jar segment-spark is not beside this program", e);
    }
  }

  private static Path submit(UnaryOperator<String> environment) {
    String home = environment.apply("SPARK_HOME");
    if (home == null || home.isBlank()) {
      throw new WrongOption(
          "--engine spark",
          "needs Apache Spark: set the variable SPARK_HOME to its folder, the one that holds"
              + " bin/spark-submit (for example: export SPARK_HOME=/opt/spark), and name the"
              + " cluster with --spark-options \"--master spark://HOST:7077\"; or leave out"
              + " --engine");
    }
    String ending =
        System.getProperty("os.name").toLowerCase(Locale.ROOT).startsWith("windows") ? ".cmd" : "";
    Path submit = Path.of(home, "bin", "spark-submit" + ending);
    if (!Files.isRegularFile(submit)) {
      throw new WrongOption(
          "SPARK_HOME",
          "is "
              + home
              + ", where there is no bin"
              + File.separator
              + submit.getFileName()
              + "; set it to the folder of Apache Spark");
    }
    return submit;
  }

  private static Path jar() {
    Path place =
        Path.of(
            URI.create(
                Diesurvey.class.getProtectionDomain().getCodeSource().getLocation().toString()));
    if (!Files.isRegularFile(place)) {
      throw new WrongOption(
          "--engine spark", "needs the packaged program; call segment-cli/bin/diesurvey");
    }
    return place;
  }

  /** Words of an option that holds several. */
  static List<String> words(String option) {
    return Arrays.stream(option.trim().split("\\s+")).filter(w -> !w.isEmpty()).toList();
  }
}
