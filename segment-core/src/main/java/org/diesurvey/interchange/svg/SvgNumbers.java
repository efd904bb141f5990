package org.diesurvey.interchange.svg;

import java.util.ArrayList;
import java.util.List;

/** Reads the numbers of SVG attributes one by one, with the separators that SVG allows. */
final class SvgNumbers {
  private final String text;
  private int at;

  SvgNumbers(String text) {
    this.text = text;
  }

  /** All numbers of a list. */
  static List<Double> all(String text) {
    SvgNumbers in = new SvgNumbers(text);
    List<Double> all = new ArrayList<>();
    while (!in.atEnd()) {
      all.add(in.number());
    }
    return all;
  }

  boolean atEnd() {
    skip();
    return at >= text.length();
  }

  /** The letter that comes next, or 0 where a number comes. */
  char letter() {
    skip();
    char c = text.charAt(at);
    if (c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z') {
      at++;
      return c;
    }
    return 0;
  }

  /** A flag of an arc: one digit, which needs no separator behind it. */
  boolean flag() {
    skip();
    char c = at < text.length() ? text.charAt(at++) : ' ';
    if (c != '0' && c != '1') {
      throw new IllegalArgumentException("0 or 1 was expected at character " + at);
    }
    return c == '1';
  }

  double number() {
    skip();
    int from = at;
    sign();
    int digits = digits();
    if (at < text.length() && text.charAt(at) == '.') {
      at++;
      digits += digits();
    }
    if (digits == 0) {
      throw new IllegalArgumentException("a number was expected at character " + (from + 1));
    }
    if (at + 1 < text.length() && (text.charAt(at) == 'e' || text.charAt(at) == 'E')) {
      int mark = at++;
      sign();
      if (digits() == 0) {
        at = mark;
      }
    }
    if (at - from > 64) {
      throw new IllegalArgumentException("a number is too long at character " + (from + 1));
    }
    return Double.parseDouble(text.substring(from, at));
  }

  private void sign() {
    if (at < text.length() && (text.charAt(at) == '-' || text.charAt(at) == '+')) {
      at++;
    }
  }

  private int digits() {
    int from = at;
    while (at < text.length() && text.charAt(at) >= '0' && text.charAt(at) <= '9') {
      at++;
    }
    return at - from;
  }

  private void skip() {
    while (at < text.length() && (text.charAt(at) <= ' ' || text.charAt(at) == ',')) {
      at++;
    }
  }
}
