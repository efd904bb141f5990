package org.diesurvey.files;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.ByteBuffer;
import org.diesurvey.CancelledException;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.junit.jupiter.api.Test;

class ScratchFileTest {
  @Test
  void whatIsWritten_isRead_andTheRestIsZero() {
    try (ScratchFile file = ScratchFile.of(100)) {
      file.write(40, ByteBuffer.wrap(new byte[] {1, 2, 3}));
      byte[] read = new byte[5];
      file.read(39, ByteBuffer.wrap(read));
      assertArrayEquals(new byte[] {0, 1, 2, 3, 0}, read);
    }
  }

  @Test
  void readingBeyondTheEnd_isOneSentence() {
    try (ScratchFile file = ScratchFile.of(100)) {
      ByteBuffer tooLong = ByteBuffer.allocate(101);
      DieInputException e = assertThrows(DieInputException.class, () -> file.read(0, tooLong));
      assertEquals(Reason.OUTPUT_NOT_WRITABLE, e.reason());
      assertTrue(e.getMessage().contains("cannot be written or read"), e.getMessage());
    }
  }

  /** The platform closes a file under a thread that is interrupted. */
  @Test
  void interruptedThread_isCancelled_andSoAreTheOthersThatUseTheFile() {
    try (ScratchFile file = ScratchFile.of(100)) {
      ByteBuffer one = ByteBuffer.allocate(1);
      Thread.currentThread().interrupt();
      assertThrows(CancelledException.class, () -> file.write(0, one));
      assertTrue(Thread.interrupted());
      assertThrows(CancelledException.class, () -> file.read(0, one));
    }
  }
}
