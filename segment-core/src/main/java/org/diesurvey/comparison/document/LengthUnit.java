package org.diesurvey.comparison.document;

import org.diesurvey.Supported;

/** Unit of the lengths of a comparison. */
@Supported
public enum LengthUnit {
  /** Micrometres: both photographs have a scale. */
  UM("um"),
  /** Pixels of the first photograph: a scale is missing, so everything is relative. */
  PX("px");

  private final String symbol;

  LengthUnit(String symbol) {
    this.symbol = symbol;
  }

  /** As written in documents. */
  public String symbol() {
    return symbol;
  }
}
