package org.diesurvey.campaign;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.Random;

/** Seeded changes of a whole file. */
final class Mutations {
  /** What breaks readers: numbers at the ends of ranges, deep nesting, control characters. */
  private static final List<String> WORDS =
      List.of(
          "-1",
          "0",
          "1e308",
          "-1e308",
          "1e-320",
          "NaN",
          "2147483648",
          "9223372036854775808",
          "null",
          "true",
          "\"\"",
          "[]",
          "{}",
          "[".repeat(200),
          "{\"a\":".repeat(100),
          "\u001b[2J",
          "\u202e",
          "\\ud800",
          "../../../../etc/passwd",
          "<!DOCTYPE a [<!ENTITY b \"c\">]>",
          "&b;",
          "A".repeat(20_000),
          "',\"",
          "\n",
          "\u0000");

  private final Random random;

  Mutations(long seed) {
    random = new Random(seed);
  }

  byte[] changed(byte[] whole, boolean text) {
    byte[] bytes = whole.clone();
    int times = random.nextBoolean() ? 1 : 1 + random.nextInt(5);
    for (int i = 0; i < times && bytes.length > 0; i++) {
      bytes = text && random.nextInt(3) > 0 ? word(bytes) : raw(bytes);
    }
    return bytes;
  }

  private byte[] raw(byte[] bytes) {
    switch (random.nextInt(8)) {
      case 0:
        return Arrays.copyOf(bytes, random.nextInt(bytes.length + 1));
      case 1:
        return spliced(bytes, place(bytes), 0, bytes(1 + random.nextInt(64)));
      case 2:
        int from = place(bytes);
        int length = Math.min(bytes.length - from, 1 + random.nextInt(200));
        return spliced(bytes, place(bytes), 0, Arrays.copyOfRange(bytes, from, from + length));
      case 3:
        return spliced(bytes, place(bytes), 1 + random.nextInt(64), new byte[0]);
      case 4:
        byte[] number = new byte[1 + random.nextInt(4)];
        Arrays.fill(number, random.nextBoolean() ? (byte) 0xff : (byte) (random.nextInt(2) * 127));
        return spliced(bytes, place(bytes), number.length, number);
      default:
        int hits = 1 + random.nextInt(8);
        for (int i = 0; i < hits; i++) {
          bytes[place(bytes)] = (byte) random.nextInt(256);
        }
        return bytes;
    }
  }

  /** Puts a word in place of a number or a string, or between two characters. */
  private byte[] word(byte[] bytes) {
    byte[] word = WORDS.get(random.nextInt(WORDS.size())).getBytes(StandardCharsets.UTF_8);
    int at = random.nextInt(bytes.length);
    int from = at;
    while (from < bytes.length && !isNumber(bytes[from])) {
      from++;
    }
    if (from == bytes.length || random.nextInt(4) == 0) {
      return spliced(bytes, at, random.nextInt(8), word);
    }
    int to = from;
    while (to < bytes.length && isNumber(bytes[to])) {
      to++;
    }
    return spliced(bytes, from, to - from, word);
  }

  private static boolean isNumber(byte b) {
    return b >= '0' && b <= '9' || b == '.' || b == '-';
  }

  /** Headers and directories lie at both ends, so most of the damage goes there. */
  private int place(byte[] bytes) {
    int reach = random.nextBoolean() ? bytes.length : Math.min(bytes.length, 300);
    int at = random.nextInt(reach);
    return random.nextInt(3) > 0 ? at : bytes.length - 1 - at;
  }

  private byte[] bytes(int count) {
    byte[] b = new byte[count];
    random.nextBytes(b);
    return b;
  }

  private static byte[] spliced(byte[] bytes, int at, int without, byte[] with) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    int end = Math.min(bytes.length, at + without);
    out.write(bytes, 0, at);
    out.write(with, 0, with.length);
    out.write(bytes, end, bytes.length - end);
    return out.toByteArray();
  }
}
