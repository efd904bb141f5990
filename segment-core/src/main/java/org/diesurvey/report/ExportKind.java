package org.diesurvey.report;

/** What a survey can be exported as. */
public enum ExportKind {
  /** Outlines for maps and scripts, in um of the die. */
  GEOJSON("geojson"),
  /** Outlines over the linked photograph, for vector editors. */
  SVG("svg"),
  /** Outlines at true scale, for layout editors. */
  GDSII("gdsii"),
  /** Outlines as W3C Web Annotations of the photograph. */
  ANNOTATIONS("annotations"),
  /** The table of regions. */
  CSV("csv"),
  /** Label map with resolution tags. */
  TIFF("tiff"),
  /** Label map with the physical size in OME-XML. */
  OME_TIFF("ome-tiff"),
  /** The report for archives. */
  PDF("pdf");

  private final String label;

  ExportKind(String label) {
    this.label = label;
  }

  /** Name at the command line. */
  @Override
  public String toString() {
    return label;
  }
}
