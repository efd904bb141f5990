package org.diesurvey.features;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import org.diesurvey.files.ScratchFile;

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
  private final ScratchFile file;

  private RowStore(int rows, int length, float[][] held, ScratchFile file) {
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
    return new RowStore(rows, length, null, ScratchFile.of(4L * rows * length));
  }

  /** Sets some numbers of a row. */
  void put(int row, int at, float[] from, int first, int count) {
    if (file == null) {
      System.arraycopy(from, first, held[row], at, count);
      return;
    }
    ByteBuffer bytes = ByteBuffer.allocate(4 * count).order(ByteOrder.nativeOrder());
    bytes.asFloatBuffer().put(from, first, count);
    file.write(position(row, at), bytes);
  }

  /** Copies some numbers of a row. */
  void get(int row, int at, float[] to, int first, int count) {
    if (file == null) {
      System.arraycopy(held[row], at, to, first, count);
      return;
    }
    ByteBuffer bytes = ByteBuffer.allocate(4 * count).order(ByteOrder.nativeOrder());
    file.read(position(row, at), bytes);
    bytes.flip();
    bytes.asFloatBuffer().get(to, first, count);
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
      file.close();
    }
  }
}
