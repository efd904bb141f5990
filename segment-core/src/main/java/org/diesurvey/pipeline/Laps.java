package org.diesurvey.pipeline;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.Consumer;
import org.diesurvey.Cancellation;

/** Notes the time of every stage as it ends. */
final class Laps {
  private final Map<String, Double> seconds = new LinkedHashMap<>();
  private final Consumer<String> onStageDone;
  private long since = System.nanoTime();

  Laps(Consumer<String> onStageDone) {
    this.onStageDone = onStageDone;
  }

  void done(String stage) {
    Cancellation.check();
    long now = System.nanoTime();
    seconds.put(stage, (now - since) / 1e9);
    since = now;
    onStageDone.accept(stage);
  }

  StageTimes times() {
    return new StageTimes(seconds);
  }
}
