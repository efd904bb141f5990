package org.diesurvey.report.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.diesurvey.survey.SmallSurvey;
import org.junit.jupiter.api.Test;

class BudgetChartTest {
  private static double width(String svg, int part, int which) {
    Matcher m =
        Pattern.compile("class=\"part-" + part + "\"[^>]* width=\"([0-9.]+)\"").matcher(svg);
    for (int i = 0; i <= which; i++) {
      assertTrue(m.find(), svg);
    }
    return Double.parseDouble(m.group(1));
  }

  /**
   * Areas of the small survey have 1 % and a pitch of 0.5 %, which enters areas twice (JCGM
   * 100:2008, 5.1.6): all of the variance is the scale's.
   */
  @Test
  void areaWhoseUncertaintyIsTheScales_hasNoPartOfTheOutline() {
    String section = BudgetChart.section(SmallSurvey.of(true));
    assertTrue(section.contains("1.0\u00a0%   outline 0\u00a0%   scale 100\u00a0%"), section);
    assertTrue(section.contains("The scale weighs most"));
    assertFalse(section.contains("Empty"), "no class, no row");
  }

  @Test
  void surveyWithoutScale_hasNoBudget() {
    assertEquals("", BudgetChart.section(SmallSurvey.of(false)));
  }

  @Test
  void partsFillTheBarByTheirShares_andBarsAreAsLongAsTheUncertainty() {
    List<BudgetChart.Part> parts =
        List.of(new BudgetChart.Part("a", 0.75), new BudgetChart.Part("b <", 0.25));
    String svg =
        BudgetChart.svg(
            List.of(
                new BudgetChart.Row("one", 0.04, parts), new BudgetChart.Row("two", 0.02, parts)),
            "words");
    // The first boxes are those of the key.
    assertEquals(3 * width(svg, 1, 1), width(svg, 0, 1), 0.2);
    assertEquals(2 * width(svg, 0, 2), width(svg, 0, 1), 0.2);
    assertTrue(svg.contains("b &lt;"));
    assertTrue(BudgetChart.causes(parts, "words").contains(">75.0\u00a0%<"));
  }
}
