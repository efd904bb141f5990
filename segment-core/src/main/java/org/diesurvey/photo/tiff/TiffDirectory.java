package org.diesurvey.photo.tiff;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.diesurvey.DieInputException;
import org.diesurvey.photo.file.PhotoFile;

/**
 * An image file directory of a TIFF (revision 6.0, section 2) or BigTIFF (the same with 8-byte
 * offsets and counts). Values are fetched when asked for.
 */
public final class TiffDirectory {
  private static final int MAX_FIELDS = 4096;
  private static final int MAX_DIRECTORIES = 65_536;
  private static final int MAX_VALUES = 1 << 24;

  private final PhotoFile file;
  private final ByteOrder order;
  private final boolean big;
  private final Map<Integer, Field> fields;
  private final long next;

  /** A field: type code, number of values, place of the first value in the file. */
  private record Field(int type, long count, long offset) {}

  private TiffDirectory(
      PhotoFile file, ByteOrder order, boolean big, Map<Integer, Field> fields, long next) {
    this.next = next;
    this.file = file;
    this.order = order;
    this.big = big;
    this.fields = fields;
  }

  public static TiffDirectory read(PhotoFile file) {
    boolean little = file.read(0, 1)[0] == 'I';
    ByteOrder order = little ? ByteOrder.LITTLE_ENDIAN : ByteOrder.BIG_ENDIAN;
    boolean big = file.buffer(2, 2, order).getShort(0) == 43;
    long start;
    if (big) {
      ByteBuffer head = file.buffer(4, 12, order);
      if (head.getShort(0) != 8) {
        throw file.refusals().damaged("a BigTIFF with offsets of " + head.getShort(0) + " bytes");
      }
      start = head.getLong(4);
    } else {
      start = file.buffer(4, 4, order).getInt(0) & 0xffffffffL;
    }
    return at(file, start, order, big);
  }

  private static TiffDirectory at(PhotoFile file, long start, ByteOrder order, boolean big) {
    Map<Integer, Field> fields = entries(file, start, order, big);
    int countBytes = big ? 8 : 2;
    ByteBuffer head = file.buffer(start, countBytes, order);
    long count = big ? head.getLong(0) : head.getShort(0) & 0xffff;
    long end = start + countBytes + count * (big ? 20 : 12);
    int pointer = big ? 8 : 4;
    long next = 0;
    if (end <= file.size() - pointer) {
      ByteBuffer link = file.buffer(end, pointer, order);
      next = big ? link.getLong(0) : link.getInt(0) & 0xffffffffL;
    }
    return new TiffDirectory(file, order, big, fields, next);
  }

  /**
   * This directory and those that follow it, in the order of the file; a chain that leads nowhere
   * or round in a circle ends there.
   */
  public List<TiffDirectory> chain() {
    List<TiffDirectory> all = new ArrayList<>(List.of(this));
    Set<Long> seen = new HashSet<>();
    TiffDirectory last = this;
    while (last.next > 0
        && last.next < file.size() - 8
        && seen.add(last.next)
        && all.size() < MAX_DIRECTORIES) {
      try {
        last = at(file, last.next, order, big);
      } catch (DieInputException e) {
        return all;
      }
      all.add(last);
    }
    return all;
  }

  private static Map<Integer, Field> entries(
      PhotoFile file, long start, ByteOrder order, boolean big) {
    int countBytes = big ? 8 : 2;
    int entryBytes = big ? 20 : 12;
    ByteBuffer head = file.buffer(start, countBytes, order);
    long count = big ? head.getLong(0) : head.getShort(0) & 0xffff;
    if (count < 1 || count > MAX_FIELDS) {
      throw file.refusals().damaged("a TIFF directory of " + count + " fields");
    }
    ByteBuffer table = file.buffer(start + countBytes, (int) count * entryBytes, order);
    Map<Integer, Field> fields = new HashMap<>();
    for (int i = 0; i < count; i++) {
      int at = i * entryBytes;
      int type = table.getShort(at + 2) & 0xffff;
      long values = big ? table.getLong(at + 4) : table.getInt(at + 4) & 0xffffffffL;
      int size = typeBytes(type);
      if (size == 0 || values < 1 || values > file.size()) {
        continue;
      }
      int inline = big ? 8 : 4;
      int place = at + (big ? 12 : 8);
      long offset;
      if (values * size <= inline) {
        offset = start + countBytes + place;
      } else {
        offset = big ? table.getLong(place) : table.getInt(place) & 0xffffffffL;
      }
      fields.putIfAbsent(table.getShort(at) & 0xffff, new Field(type, values, offset));
    }
    return fields;
  }

  private static int typeBytes(int type) {
    return switch (type) {
      case 1, 2, 6, 7 -> 1;
      case 3, 8 -> 2;
      case 4, 9, 11, 13 -> 4;
      case 5, 10, 12, 16, 17, 18 -> 8;
      default -> 0;
    };
  }

  public ByteOrder order() {
    return order;
  }

  public boolean big() {
    return big;
  }

  boolean has(int tag) {
    return fields.containsKey(tag);
  }

  /** All values of an unsigned whole-number field; empty where the field is missing. */
  long[] numbers(int tag) {
    Field field = fields.get(tag);
    if (field == null) {
      return new long[0];
    }
    boolean whole =
        field.type == 1
            || field.type == 3
            || field.type == 4
            || field.type == 13
            || field.type == 16
            || field.type == 18;
    if (!whole || field.count > MAX_VALUES) {
      throw file.refusals()
          .damaged(
              "TIFF tag " + tag + " of type " + field.type + " with " + field.count + " values");
    }
    int size = typeBytes(field.type);
    ByteBuffer values = file.buffer(field.offset, (int) field.count * size, order);
    long[] numbers = new long[(int) field.count];
    for (int i = 0; i < numbers.length; i++) {
      numbers[i] =
          switch (size) {
            case 1 -> values.get(i) & 0xffL;
            case 2 -> values.getShort(2 * i) & 0xffffL;
            case 4 -> values.getInt(4 * i) & 0xffffffffL;
            default -> values.getLong(8 * i);
          };
    }
    return numbers;
  }

  /** All bytes of a field of bytes; empty where it is missing or another. */
  public byte[] bytes(int tag, int maxBytes) {
    Field field = fields.get(tag);
    boolean usable = field != null && typeBytes(field.type) == 1 && field.count <= maxBytes;
    return usable ? file.read(field.offset, (int) field.count) : new byte[0];
  }

  /** The first value of a whole-number field. */
  public long number(int tag, long absent) {
    long[] numbers = numbers(tag);
    return numbers.length == 0 ? absent : numbers[0];
  }

  /** The first value of a rational field; NaN where it is missing or no ratio. */
  public double ratio(int tag) {
    Field field = fields.get(tag);
    if (field == null || field.type != 5 || field.offset < 0 || field.offset > file.size() - 8) {
      return Double.NaN;
    }
    ByteBuffer value = file.buffer(field.offset, 8, order);
    return (value.getInt(0) & 0xffffffffL) / (double) (value.getInt(4) & 0xffffffffL);
  }

  /** A text field without its closing zero; empty where it is missing or longer than the limit. */
  public String text(int tag, int maxBytes) {
    Field field = fields.get(tag);
    boolean usable =
        field != null
            && field.type == 2
            && field.count <= maxBytes
            && field.offset >= 0
            && field.offset <= file.size() - field.count;
    if (!usable) {
      return "";
    }
    String text = new String(file.read(field.offset, (int) field.count), StandardCharsets.UTF_8);
    int end = text.indexOf('\0');
    return end < 0 ? text : text.substring(0, end);
  }
}
