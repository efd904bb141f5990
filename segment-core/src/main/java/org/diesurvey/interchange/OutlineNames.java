package org.diesurvey.interchange;

import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.diesurvey.classification.DieClass;

/** Classes and ids as files name them. */
public final class OutlineNames {
  private static final List<DieClass> CLASSES =
      Arrays.stream(DieClass.values()).filter(c -> c != DieClass.OFF_DIE).toList();

  private final String place;
  private final Map<String, Integer> counts = new HashMap<>();
  private final Set<String> taken = new HashSet<>();

  public OutlineNames(String place) {
    this.place = place;
  }

  /** The class that a text names, hyphens and underscores read as blanks, case left aside. */
  public static Optional<DieClass> dieClass(String text) {
    String plain = text.strip().toLowerCase(Locale.ROOT).replace('-', ' ').replace('_', ' ');
    return CLASSES.stream().filter(c -> c.label().equals(plain)).findFirst();
  }

  /** All classes, for messages. */
  static String known() {
    return CLASSES.stream().map(DieClass::label).collect(Collectors.joining(", "));
  }

  /** The class that an outline must name; a bit-cell array need not. */
  public DieClass dieClass(String id, Optional<String> text, boolean inner) {
    if (inner) {
      return DieClass.MEMORY_ARRAY;
    }
    if (text.isEmpty()) {
      throw Refused.outline(place, id, "has no class: give it one of " + known());
    }
    return dieClass(text.get())
        .orElseThrow(
            () ->
                Refused.outline(
                    place,
                    id,
                    "has the unknown class '"
                        + Refused.quoted(text.get())
                        + "': give it one of "
                        + known()));
  }

  /** Notes an id that a file uses, so that none is invented twice. */
  public void use(String id) {
    taken.add(id);
  }

  /** A free id for an outline without one: the short name of its class and a number. */
  public String invented(DieClass c) {
    String id;
    do {
      id = c.shortName() + counts.merge(c.shortName(), 1, Integer::sum);
    } while (!taken.add(id));
    return id;
  }

  /** The first text for the first part of an outline, then "MEM1-2", "MEM1-3". */
  public static String part(String id, int index) {
    return index == 0 ? id : id + "-" + (index + 1);
  }

  /** A text of tolerable length. */
  public static String limited(String text, String place) {
    if (text.length() > OutlineChecks.LONGEST_TEXT) {
      throw Refused.file(
          place,
          "a text of "
              + text.length()
              + " characters is too long (at most "
              + OutlineChecks.LONGEST_TEXT
              + "): '"
              + Refused.quoted(text)
              + "'");
    }
    return text;
  }
}
