package org.diesurvey.survey.json;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;

/**
 * A value in a document together with where it stands, so that every refusal can name the member.
 *
 * @param place document and member path, for messages
 * @param node the value
 */
record JsonMember(String place, JsonNode node) {
  private static final int LONGEST_NAME = 200;

  /** The refusal of this member. */
  DieInputException refused(String why) {
    return new DieInputException(
        Reason.DOCUMENT_INVALID,
        place + ": " + why + "; the document is no valid survey: survey the photo again.");
  }

  /** This object with no other members than those named. */
  JsonMember onlyMembers(Set<String> names) {
    if (!node.isObject()) {
      throw refused("an object was expected");
    }
    for (Iterator<String> it = node.fieldNames(); it.hasNext(); ) {
      String name = it.next();
      if (!names.contains(name)) {
        throw at(name).refused("the member is unknown");
      }
    }
    return this;
  }

  private JsonMember at(String name) {
    return new JsonMember(place + (place.endsWith(":") ? " " : ".") + name, node.get(name));
  }

  /** The member of that name, which must be there. */
  JsonMember member(String name) {
    JsonMember m = at(name);
    if (m.node == null) {
      throw m.refused("the member is missing");
    }
    return m;
  }

  /** The member of that name, if there. */
  Optional<JsonMember> optional(String name) {
    return node.has(name) ? Optional.of(at(name)) : Optional.empty();
  }

  String text() {
    if (!node.isTextual()) {
      throw refused("a text was expected, found " + node);
    }
    return node.textValue();
  }

  /** A text that stands in tables and names: at most {@value #LONGEST_NAME} characters. */
  String name() {
    String text = text();
    if (text.length() > LONGEST_NAME) {
      throw refused(
          "a text of at most "
              + LONGEST_NAME
              + " characters was expected, found one of "
              + text.length());
    }
    return text;
  }

  boolean flag() {
    if (!node.isBoolean()) {
      throw refused("true or false was expected, found " + node);
    }
    return node.booleanValue();
  }

  /** A finite number from low to high. */
  double number(double low, double high) {
    double v = node.isNumber() ? node.doubleValue() : Double.NaN;
    if (!(v >= low && v <= high) || Double.isInfinite(v)) {
      throw refused("a number from " + low + " to " + high + " was expected, found " + shorten());
    }
    return v;
  }

  double number() {
    return number(-Double.MAX_VALUE, Double.MAX_VALUE);
  }

  /** A number of at least zero. */
  double amount() {
    return number(0, Double.MAX_VALUE);
  }

  double share() {
    return number(0, 1);
  }

  /** A whole number from low to high. */
  long whole(long low, long high) {
    if (!node.isIntegralNumber()
        || !node.canConvertToLong()
        || node.longValue() < low
        || node.longValue() > high) {
      throw refused(
          "a whole number from " + low + " to " + high + " was expected, found " + shorten());
    }
    return node.longValue();
  }

  /** Every element of this array, mapped. */
  <T> List<T> list(Function<JsonMember, T> map) {
    if (!node.isArray()) {
      throw refused("an array was expected");
    }
    List<T> all = new ArrayList<>(node.size());
    for (int i = 0; i < node.size(); i++) {
      all.add(map.apply(new JsonMember(place + "[" + i + "]", node.get(i))));
    }
    return all;
  }

  private String shorten() {
    String s = node.toString();
    return s.length() > 40 ? s.substring(0, 40) + "..." : s;
  }
}
