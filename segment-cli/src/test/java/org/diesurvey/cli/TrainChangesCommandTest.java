package org.diesurvey.cli;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.diesurvey.classification.model.SmallNetwork;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class TrainChangesCommandTest {
  @TempDir private Path folder;

  private Call train(String out, Object... options) {
    Object[] all = new Object[options.length + 7];
    Object[] fixed = {
      "train-changes", "--out", folder.resolve(out), "--megapixels", "1.2,1.3", "--seed", "3"
    };
    System.arraycopy(fixed, 0, all, 0, 7);
    System.arraycopy(options, 0, all, 7, options.length);
    return Call.of(all);
  }

  @Test
  void bothNetworksAreWritten_theSameForAnyNumberOfThreads() throws IOException {
    for (String threads : new String[] {"1", "2"}) {
      Call call =
          train(threads, "--drawn", "2", "--unchanged", "0", "--places", "2", "--threads", threads);
      assertEquals(ExitCode.DONE, call.code(), call.err());
    }
    for (String name : new String[] {"change-network.json", "kind-network.json"}) {
      byte[] one = Files.readAllBytes(folder.resolve("1").resolve(name));
      assertArrayEquals(one, Files.readAllBytes(folder.resolve("2").resolve(name)));
      assertTrue(SmallNetwork.read(one).figures() > 10);
    }
  }

  @Test
  void withoutAnyPair_itSaysSo() {
    Call call = train("none", "--drawn", "0", "--unchanged", "0", "--places", "0");
    assertEquals(ExitCode.WRONG_CALL, call.code());
    assertTrue(call.err().contains("needs more pairs"), call.err());
  }
}
