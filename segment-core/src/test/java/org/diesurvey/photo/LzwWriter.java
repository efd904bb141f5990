package org.diesurvey.photo;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.Map;

/** LZW written straight from the pseudo-code of TIFF 6.0, section 13; for tests only. */
final class LzwWriter {
  private final ByteArrayOutputStream out = new ByteArrayOutputStream();
  private final Map<String, Integer> table = new HashMap<>();
  private int bits;
  private int held;
  private int width;

  private LzwWriter() {}

  static byte[] encode(byte[] data) {
    return new LzwWriter().run(data);
  }

  private byte[] run(byte[] data) {
    clear();
    String omega = "";
    for (char k : new String(data, StandardCharsets.ISO_8859_1).toCharArray()) {
      if (table.containsKey(omega + k)) {
        omega += k;
        continue;
      }
      put(table.get(omega));
      int code = table.size() + 2;
      table.put(omega + k, code);
      if (code == 511 || code == 1023 || code == 2047) {
        width++;
      } else if (code == 4094) {
        clear();
      }
      omega = String.valueOf(k);
    }
    put(table.get(omega));
    // The reader has entered one more string by now and may have widened its codes.
    int next = table.size() + 2;
    if (next == 511 || next == 1023 || next == 2047) {
      width++;
    }
    put(257);
    out.write(bits << 8 - held);
    return out.toByteArray();
  }

  private void clear() {
    if (width > 0) {
      put(256);
    }
    table.clear();
    for (int i = 0; i < 256; i++) {
      table.put(String.valueOf((char) i), i);
    }
    boolean first = width == 0;
    width = 9;
    if (first) {
      put(256);
    }
  }

  private void put(int code) {
    bits = bits << width | code;
    held += width;
    while (held >= 8) {
      held -= 8;
      out.write(bits >>> held);
    }
    bits &= (1 << held) - 1;
  }
}
