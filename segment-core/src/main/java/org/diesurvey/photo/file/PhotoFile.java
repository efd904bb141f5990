package org.diesurvey.photo.file;

import java.io.Closeable;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.ClosedByInterruptException;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import org.diesurvey.CancelledException;

/** An open file read by position, so that several threads may read at once. */
public final class PhotoFile implements Closeable {
  private static final int BLOCK_BYTES = 1 << 18;

  private final FileChannel channel;
  private final long start;
  private final long size;
  private final Path path;
  private final Refusals refusals;

  private PhotoFile(FileChannel channel, long start, long size, Path path, Refusals refusals) {
    this.channel = channel;
    this.start = start;
    this.size = size;
    this.path = path;
    this.refusals = refusals;
  }

  public static PhotoFile open(Path path, Refusals refusals) throws IOException {
    FileChannel channel = FileChannel.open(path, StandardOpenOption.READ);
    return new PhotoFile(channel, 0, channel.size(), path, refusals);
  }

  /** A stretch of this file as a file of its own, counted from its first byte. */
  public PhotoFile part(long offset, int count) {
    if (offset < 0 || count < 0 || offset > size - count) {
      throw refusals.truncated("a block reaches beyond the end of the file");
    }
    return new PhotoFile(channel, start + offset, count, path, refusals);
  }

  public Path path() {
    return path;
  }

  public Refusals refusals() {
    return refusals;
  }

  /** Bytes in the file when it was opened. */
  public long size() {
    return size;
  }

  /** Exactly these bytes; a range outside the file is refused before anything is allocated. */
  public byte[] read(long offset, int count) {
    if (offset < 0 || count < 0 || offset > size - count) {
      throw refusals.truncated(
          "it points to byte " + offset + " + " + count + " of " + size + " bytes");
    }
    byte[] bytes = new byte[count];
    ByteBuffer buffer = ByteBuffer.wrap(bytes);
    try {
      while (buffer.hasRemaining()) {
        if (channel.read(buffer, start + offset + buffer.position()) < 0) {
          throw refusals.truncated("it became shorter while it was read");
        }
      }
    } catch (IOException e) {
      // The interruption of any reading thread closes the channel for all.
      if (e instanceof ClosedByInterruptException || Thread.currentThread().isInterrupted()) {
        throw new CancelledException("reading " + refusals.file());
      }
      throw refusals.unreadable(e);
    }
    return bytes;
  }

  /** The same bytes as a buffer of the given byte order. */
  public ByteBuffer buffer(long offset, int count, ByteOrder order) {
    return ByteBuffer.wrap(read(offset, count)).order(order);
  }

  /** SHA-256 (FIPS 180-4) of the whole file, 64 lower-case hex digits. */
  public String sha256() {
    MessageDigest digest;
    try {
      digest = MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
    for (long at = 0; at < size; at += BLOCK_BYTES) {
      digest.update(read(at, (int) Math.min(BLOCK_BYTES, size - at)));
    }
    return HexFormat.of().formatHex(digest.digest());
  }

  @Override
  public void close() throws IOException {
    channel.close();
  }
}
