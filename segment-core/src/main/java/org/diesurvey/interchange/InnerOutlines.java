package org.diesurvey.interchange;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.diesurvey.classification.DieClass;
import org.locationtech.jts.geom.Polygon;

/** Finds the memories of bit-cell arrays that a file draws without naming them. */
public final class InnerOutlines {
  /** Stands for the id of a memory until it is found; no id of a file can be empty. */
  public static final String TO_BE_FOUND = "";

  private InnerOutlines() {}

  /** The list with every array given to the memory that covers most of it. */
  public static List<ClassedOutline> placed(List<ClassedOutline> all, String place) {
    List<ClassedOutline> out = new ArrayList<>();
    for (ClassedOutline o : all) {
      out.add(
          o.partOf().equals(Optional.of(TO_BE_FOUND)) ? o.withPartOf(memory(o, all, place)) : o);
    }
    return out;
  }

  private static String memory(ClassedOutline array, List<ClassedOutline> all, String place) {
    Polygon a = OutlineShapes.polygon(array.shape());
    String best = null;
    double most = 0;
    for (ClassedOutline o : all) {
      if (o.inner() || o.dieClass() != DieClass.MEMORY_ARRAY) {
        continue;
      }
      Polygon m = OutlineShapes.polygon(o.shape());
      if (!m.getEnvelopeInternal().intersects(a.getEnvelopeInternal())) {
        continue;
      }
      double both = OutlineChecks.common(a, m);
      if (both > most) {
        most = both;
        best = o.id();
      }
    }
    if (best == null) {
      throw Refused.outline(
          place, array.id(), "is a bit-cell array outside every memory array: move or delete it");
    }
    return best;
  }
}
