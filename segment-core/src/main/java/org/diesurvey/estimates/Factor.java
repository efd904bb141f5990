package org.diesurvey.estimates;

/** The causes of uncertainty that are drawn once for a whole die. */
enum Factor {
  SCALE("scale", "the pixel pitch, twice in every area"),
  EDGE("edges", "where the outlines run"),
  EXTENT("extent", "blocks merged, cut or missed"),
  CELL("bit-cell size", "the size of the bit cell of the process"),
  CELL_KIND("ports and devices", "one port, two ports, or thick-oxide devices"),
  LATTICE("lattice", "the period of the bit-cell lattice and its reading"),
  EFFICIENCY("efficiency", "the share of the outline that bit cells fill"),
  DENSITY("gate density", "gates per area of the process"),
  ROW("row height", "gates per area at the row height measured"),
  ROW_READING("row reading", "one row or two in a period"),
  UTILISATION("utilisation", "the share of the rows that cells fill"),
  DESIGN("gate count", "the same design differs by library");

  private final String label;
  private final String words;

  Factor(String label, String words) {
    this.label = label;
    this.words = words;
  }

  /** Name in budgets, with an explanation. */
  String title() {
    return label + ": " + words;
  }
}
