package org.diesurvey.campaign;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * Reads the bytes that a guided campaign thinks of; anything but reading or refusing is a fault.
 */
public final class GuidedTarget {
  private static final CampaignKind KIND =
      CampaignKind.valueOf(System.getProperty("diesurvey.guided.kind"));
  private static final Path FILE =
      Path.of(System.getProperty("diesurvey.guided.folder"), "changed");

  private GuidedTarget() {}

  /** Called for each input. */
  public static void fuzzerTestOneInput(byte[] input) throws IOException {
    Files.write(FILE, KIND.asFile(input));
    String outcome = CampaignWorker.outcome(KIND, FILE, false);
    if (outcome.startsWith("FAULT")) {
      throw new AssertionError(outcome);
    }
  }
}
