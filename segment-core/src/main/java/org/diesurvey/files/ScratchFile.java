package org.diesurvey.files;

import java.io.EOFException;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.channels.ClosedChannelException;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import org.diesurvey.CancelledException;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;

/**
 * What does not fit the memory, in a file of the folder for temporary files that goes with the
 * process. Zero until it is written. Safe for threads that write different places.
 */
public final class ScratchFile implements AutoCloseable {
  private final FileChannel file;

  private ScratchFile(FileChannel file) {
    this.file = file;
  }

  /**
   * A new file.
   *
   * @param bytes its size, at least 1
   * @throws DieInputException OUTPUT_NOT_WRITABLE if there is no room, or the folder is not
   *     writable
   */
  public static ScratchFile of(long bytes) {
    Path folder = folder();
    try {
      if (Files.getFileStore(folder).getUsableSpace() < bytes) {
        throw noRoom(folder, bytes, null);
      }
      return new ScratchFile(Disk.scratch(folder, bytes));
    } catch (ClosedChannelException e) {
      throw fault(e);
    } catch (IOException e) {
      throw noRoom(folder, bytes, e);
    }
  }

  private static Path folder() {
    return Path.of(System.getProperty("java.io.tmpdir"));
  }

  private static DieInputException noRoom(Path folder, long bytes, IOException cause) {
    return new DieInputException(
        Reason.OUTPUT_NOT_WRITABLE,
        String.format(
            Locale.ROOT,
            "%s has no room for a scratch file of %.1f GB, which so large a photograph needs: make"
                + " room there, give Java more memory (-Xmx) or another folder for temporary files"
                + " (-Djava.io.tmpdir).",
            folder,
            bytes / 1e9),
        cause);
  }

  /**
   * Writes all that remains in a buffer.
   *
   * @param at byte of the file at which it begins
   * @throws CancelledException if a thread was interrupted while it used the file, or it is closed
   * @throws DieInputException OUTPUT_NOT_WRITABLE if the disk refuses
   */
  public void write(long at, ByteBuffer from) {
    long position = at;
    try {
      while (from.hasRemaining()) {
        position += file.write(from, position);
      }
    } catch (IOException e) {
      throw fault(e);
    }
  }

  /**
   * Fills what remains of a buffer.
   *
   * @param at byte of the file at which it begins
   * @throws CancelledException as for writing
   * @throws DieInputException OUTPUT_NOT_WRITABLE if the disk refuses, or the file ends before
   */
  public void read(long at, ByteBuffer to) {
    long position = at;
    try {
      while (to.hasRemaining()) {
        int n = file.read(to, position);
        if (n < 0) {
          throw new EOFException("a scratch file ended early");
        }
        position += n;
      }
    } catch (IOException e) {
      throw fault(e);
    }
  }

  /** An interrupt of one thread closes the file for all. */
  private static RuntimeException fault(IOException e) {
    return e instanceof ClosedChannelException
        ? new CancelledException("using a scratch file")
        : new DieInputException(
            Reason.OUTPUT_NOT_WRITABLE,
            "A scratch file in "
                + folder()
                + " cannot be written or read: make room there, or give Java more memory (-Xmx).",
            e);
  }

  /** Gives the file back. */
  @Override
  public void close() {
    try {
      file.close();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
