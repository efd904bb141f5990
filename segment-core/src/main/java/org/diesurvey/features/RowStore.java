package org.diesurvey.features;

import java.io.EOFException;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.ClosedChannelException;
import java.nio.channels.FileChannel;
import org.diesurvey.CancelledException;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.files.Disk;

/**
 * Rows of numbers, all of one length, zero until they are set: in memory or, if there are too many
 * for that, in a scratch file. Safe for threads that write different places.
 */
final class RowStore implements AutoCloseable {
  /** Stores up to this size stay in memory, however small the heap is, bytes. */
  private static final long ALWAYS_IN_MEMORY = 32L << 20;

  /** One store may take this part of the heap; larger ones are files (own choice). */
  private static final int HEAP_PARTS = 6;

  private final int rows;
  private final int length;
  private final float[][] held;
  private final FileChannel file;

  private RowStore(int rows, int length, float[][] held, FileChannel file) {
    this.rows = rows;
    this.length = length;
    this.held = held;
    this.file = file;
  }

  /**
   * An empty store, in a file if it would take too much of the heap.
   *
   * @param rows how many
   * @param length numbers in each
   */
  static RowStore of(int rows, int length) {
    long most = Math.max(ALWAYS_IN_MEMORY, Runtime.getRuntime().maxMemory() / HEAP_PARTS);
    return 4L * rows * length <= most ? inMemory(rows, length) : inFile(rows, length);
  }

  static RowStore inMemory(int rows, int length) {
    return new RowStore(rows, length, new float[rows][length], null);
  }

  static RowStore inFile(int rows, int length) {
    return new RowStore(rows, length, null, Disk.scratch(4L * rows * length));
  }

  /** Sets some numbers of a row. */
  void put(int row, int at, float[] from, int first, int count) {
    if (file == null) {
      System.arraycopy(from, first, held[row], at, count);
      return;
    }
    ByteBuffer bytes = ByteBuffer.allocate(4 * count).order(ByteOrder.nativeOrder());
    bytes.asFloatBuffer().put(from, first, count);
    long position = position(row, at);
    try {
      while (bytes.hasRemaining()) {
        position += file.write(bytes, position);
      }
    } catch (IOException e) {
      throw fault(e);
    }
  }

  /** Copies some numbers of a row. */
  void get(int row, int at, float[] to, int first, int count) {
    if (file == null) {
      System.arraycopy(held[row], at, to, first, count);
      return;
    }
    ByteBuffer bytes = ByteBuffer.allocate(4 * count).order(ByteOrder.nativeOrder());
    long position = position(row, at);
    try {
      while (bytes.hasRemaining()) {
        int n = file.read(bytes, position);
        if (n < 0) {
          throw new EOFException("a scratch file ended early");
        }
        position += n;
      }
    } catch (IOException e) {
      throw fault(e);
    }
    bytes.flip();
    bytes.asFloatBuffer().get(to, first, count);
  }

  /** An interrupt of one thread closes the file for all. */
  private static RuntimeException fault(IOException e) {
    return e instanceof ClosedChannelException
        ? new CancelledException("working out features")
        : new DieInputException(
            Reason.OUTPUT_NOT_WRITABLE,
            "A scratch file in the folder for temporary files ("
                + System.getProperty("java.io.tmpdir")
                + ") cannot be written or read: make room there, or give Java more memory (-Xmx).",
            e);
  }

  private long position(int row, int at) {
    return 4 * ((long) row * length + at);
  }

  /** Whether reading single numbers is fast. */
  boolean inMemory() {
    return file == null;
  }

  /** Number of rows. */
  int rows() {
    return rows;
  }

  /** Numbers of a row. */
  int length() {
    return length;
  }

  /** Gives a scratch file back; nothing may be read or written after that. */
  @Override
  public void close() {
    if (file != null) {
      try {
        file.close();
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
  }
}
