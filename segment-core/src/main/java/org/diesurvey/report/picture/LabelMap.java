package org.diesurvey.report.picture;

import org.diesurvey.raster.LabelRaster;
import org.diesurvey.survey.Survey;

/** The label map of a survey in memory, for comparisons with a truth map. */
public final class LabelMap {
  private LabelMap() {}

  /**
   * Class codes in the pixel frame of the photograph, as written to {@code label-map.png}.
   *
   * @param survey of a photo of less than 2^31 px
   */
  public static LabelRaster of(Survey survey) {
    int width = survey.photo().widthPx();
    LabelRaster map = new LabelRaster(width, survey.photo().heightPx());
    MapRows rows = new MapRows(survey);
    for (int y = 0; y < map.height(); y++) {
      rows.row(y);
      System.arraycopy(rows.labels(), 0, map.array(), y * width, width);
    }
    return map;
  }
}
