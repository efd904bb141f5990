package org.diesurvey.interchange.svg;

import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.diesurvey.raster.PlaneTransform;

/** The transform attribute of SVG (SVG 1.1 Second Edition, 7.6). */
final class SvgTransform {
  private static final Pattern STEP = Pattern.compile("\\G[\\s,]*([a-zA-Z]+)\\s*\\(([^()]*)\\)");

  private SvgTransform() {}

  /**
   * The map of a list of transforms; the last one of the list acts first.
   *
   * @throws IllegalArgumentException where the text breaks the grammar
   */
  static PlaneTransform of(String text) {
    PlaneTransform all = PlaneTransform.IDENTITY;
    Matcher m = STEP.matcher(text);
    int end = 0;
    while (m.find()) {
      all = step(m.group(1), SvgNumbers.all(m.group(2))).then(all);
      end = m.end();
    }
    if (!text.substring(end).isBlank()) {
      throw new IllegalArgumentException("the transform cannot be read");
    }
    return all;
  }

  private static PlaneTransform step(String name, List<Double> v) {
    int n = v.size();
    if (name.equals("matrix") && n == 6) {
      return new PlaneTransform(v.get(0), v.get(2), v.get(4), v.get(1), v.get(3), v.get(5));
    }
    if (name.equals("translate") && (n == 1 || n == 2)) {
      return new PlaneTransform(1, 0, v.get(0), 0, 1, n == 2 ? v.get(1) : 0);
    }
    if (name.equals("scale") && (n == 1 || n == 2)) {
      return new PlaneTransform(v.get(0), 0, 0, 0, v.get(n - 1), 0);
    }
    if (name.equals("rotate") && (n == 1 || n == 3)) {
      double cos = Math.cos(Math.toRadians(v.get(0)));
      double sin = Math.sin(Math.toRadians(v.get(0)));
      double x = n == 3 ? v.get(1) : 0;
      double y = n == 3 ? v.get(2) : 0;
      return new PlaneTransform(cos, -sin, x - cos * x + sin * y, sin, cos, y - sin * x - cos * y);
    }
    if (name.equals("skewX") && n == 1) {
      return new PlaneTransform(1, Math.tan(Math.toRadians(v.get(0))), 0, 0, 1, 0);
    }
    if (name.equals("skewY") && n == 1) {
      return new PlaneTransform(1, 0, 0, Math.tan(Math.toRadians(v.get(0))), 1, 0);
    }
    throw new IllegalArgumentException("the transform '" + name + "' cannot be read");
  }
}
