package org.diesurvey.spark;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.net.SocketTimeoutException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.LinkedBlockingQueue;
import org.apache.spark.api.java.JavaRDD;
import org.apache.spark.api.java.JavaSparkContext;
import scala.reflect.ClassTag$;
import scala.runtime.AbstractFunction2;
import scala.runtime.BoxedUnit;

/**
 * Takes the lines of a batch and brings back the answers of the cluster. Lines that wait together
 * become one Spark job, each line a task, so that a task that is lost or slow is run again by
 * Spark; of each task Spark hands over one result only.
 */
final class Coordinator implements AutoCloseable {
  private static final int CONNECT_MS = 500;
  private static final int GATHER_MS = 20;
  private static final String HEAP_MIB = "spark.diesurvey.heapMib";
  private static final int ORDERS_AT_A_TIME = 16;
  private static final String END = "";

  private final JavaSparkContext spark;
  private final int slots;
  private final List<String> jars;
  private final String main;
  private final String token;
  private final ServerSocket server;
  private final LinkedBlockingQueue<String> waiting = new LinkedBlockingQueue<>();
  private final ExecutorService jobs = Executors.newCachedThreadPool(Coordinator::daemon);
  private final ExecutorService orders =
      Executors.newFixedThreadPool(ORDERS_AT_A_TIME, Coordinator::daemon);
  private OutputStream out;

  Coordinator(JavaSparkContext spark, int slots, List<String> jars, String main)
      throws IOException {
    this.spark = spark;
    this.slots = slots;
    this.jars = jars;
    this.main = main;
    byte[] secret = new byte[16];
    new SecureRandom().nextBytes(secret);
    token = HexFormat.of().formatHex(secret);
    server = new ServerSocket(0, 1, InetAddress.getLoopbackAddress());
  }

  /** Where this listens, and the word that opens it. */
  String address() {
    return server.getLocalPort() + ":" + token;
  }

  /** Serves one batch until it closes the connection or its process ends. */
  void serve(Process batch) throws IOException, InterruptedException {
    try (Socket socket = accept(batch)) {
      if (socket == null) {
        return;
      }
      BufferedReader in =
          new BufferedReader(
              new InputStreamReader(socket.getInputStream(), StandardCharsets.UTF_8));
      String[] hello = String.valueOf(in.readLine()).split("\t");
      if (!hello[0].equals(token)) {
        throw new IOException("a stranger called");
      }
      SurveyTask task = task(hello);
      out = socket.getOutputStream();
      say("ready\t" + slots);
      jobs.execute(() -> gather(task));
      for (String line = in.readLine(); line != null; line = in.readLine()) {
        if (StoreOrders.takes(line)) {
          String order = line;
          orders.execute(() -> say(StoreOrders.answer(order)));
        } else {
          waiting.add(line);
        }
      }
    } catch (java.net.SocketException e) {
      // The batch is gone; its exit code tells how.
    } finally {
      waiting.add(END);
    }
  }

  private Socket accept(Process batch) throws IOException {
    server.setSoTimeout(CONNECT_MS);
    while (batch.isAlive()) {
      try {
        return server.accept();
      } catch (SocketTimeoutException e) {
        continue;
      }
    }
    return null;
  }

  /** Words of the worker's call; one that begins with @ is a file, which goes to every executor. */
  private SurveyTask task(String[] hello) {
    List<String> words = new ArrayList<>();
    for (int i = 1; i < hello.length; i++) {
      String word = java.net.URLDecoder.decode(hello[i], StandardCharsets.UTF_8);
      if (word.startsWith("@")) {
        spark.addFile(word.substring(1));
        word = "@" + Path.of(word.substring(1)).getFileName();
      }
      words.add(word);
    }
    return new SurveyTask(jars, main, words, spark.getConf().getInt(HEAP_MIB, 1536));
  }

  private void gather(SurveyTask task) {
    try {
      while (true) {
        List<String> lines = new ArrayList<>(List.of(waiting.take()));
        Thread.sleep(GATHER_MS);
        waiting.drainTo(lines);
        boolean end = lines.remove(END);
        if (end) {
          return;
        }
        jobs.execute(() -> run(task, lines));
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  /** One job. A task that failed for good ends its job; the others are asked again, one by one. */
  private void run(SurveyTask task, List<String> lines) {
    ConcurrentHashMap<Integer, Boolean> answered = new ConcurrentHashMap<>();
    try {
      JavaRDD<String> tasks = spark.parallelize(lines, lines.size());
      spark
          .sc()
          .runJob(
              tasks.rdd(),
              task,
              new AbstractFunction2<Object, String, BoxedUnit>() {
                @Override
                public BoxedUnit apply(Object partition, String answer) {
                  answered.put((Integer) partition, true);
                  say(answer);
                  return BoxedUnit.UNIT;
                }
              },
              ClassTag$.MODULE$.apply(String.class));
    } catch (Exception e) {
      for (int i = 0; i < lines.size(); i++) {
        if (!answered.containsKey(i)) {
          again(task, lines.get(i), lines.size() == 1, e);
        }
      }
    }
  }

  private void again(SurveyTask task, String line, boolean alone, Exception e) {
    if (alone || spark.sc().isStopped()) {
      String reason = String.valueOf(e.getMessage()).lines().findFirst().orElse("");
      say(line.substring(0, line.indexOf('\t')) + "\tlost\t" + SurveyTask.encoded(reason));
    } else {
      jobs.execute(() -> run(task, List.of(line)));
    }
  }

  private void say(String line) {
    try {
      synchronized (this) {
        out.write((line + "\n").getBytes(StandardCharsets.UTF_8));
        out.flush();
      }
    } catch (IOException e) {
      // The batch is gone: nobody waits for the answer.
    }
  }

  private static Thread daemon(Runnable work) {
    Thread thread = new Thread(work, "batch");
    thread.setDaemon(true);
    return thread;
  }

  @Override
  public void close() throws IOException {
    jobs.shutdownNow();
    orders.shutdownNow();
    server.close();
  }
}
