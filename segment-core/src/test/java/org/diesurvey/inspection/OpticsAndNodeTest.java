package org.diesurvey.inspection;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.diesurvey.SharedData;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.inspection.NodeVerdict.Kind;
import org.diesurvey.inspection.NodeVerdict.Limit;
import org.diesurvey.inspection.NodeVerdict.Visibility;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class OpticsAndNodeTest {
  private static final Pattern NUMBERS =
      Pattern.compile("lambda ([0-9.]+) (nm|um),.*?NA ([0-9.]+)");
  private static final Resolution FINE = new Resolution(2.2, true);

  private static List<String> rows(String file) throws IOException {
    return Files.readAllLines(SharedData.require("reference/" + file));
  }

  /** Worked examples RES-1, 2, 4 to 10 and DOF-1 to 9 of the reference data, sources there. */
  @Test
  void publishedExamples_areReproduced() throws IOException {
    int checked = 0;
    for (String row : rows("worked_examples.csv")) {
      Matcher m = NUMBERS.matcher(row);
      String id = row.split(",", 2)[0];
      if (!id.matches("RES-([124-9]|10)|DOF-[1-9]") || !m.find()) {
        continue;
      }
      double nm = Double.parseDouble(m.group(1)) * (m.group(2).equals("um") ? 1000 : 1);
      Optics o = Optics.of(Double.parseDouble(m.group(3)), nm, Optional.empty());
      String rest = row.substring(m.end());
      if (id.equals("RES-1")) {
        assertEquals(0.408, o.abbeUm(), 0.0005, id);
      } else if (id.equals("RES-2")) {
        assertEquals(0.37278, o.rayleighUm(), 0.00001, id);
      } else if (id.startsWith("RES")) {
        Matcher v = Pattern.compile("R ([0-9.]+) ; pixel ([0-9.]+)").matcher(rest);
        assertTrue(v.find(), row);
        assertEquals(Double.parseDouble(v.group(1)), o.rayleighUm(), 0.006, id);
        assertEquals(Double.parseDouble(v.group(2)), o.practicalPitchUm(), 0.006, id);
      } else {
        Matcher v = Pattern.compile("NA\\^2,([0-9.]+),um").matcher(rest);
        assertTrue(v.find(), row);
        assertEquals(Double.parseDouble(v.group(1)), o.depthOfFieldUm(), 0.06, id);
      }
      checked++;
    }
    assertEquals(18, checked);
  }

  /** Half of Rayleigh's distance by the sampling theorem, 2.3 pixels in practice. */
  @ParameterizedTest(name = "{0} um/px")
  @CsvSource({"0.15, FINE_ENOUGH", "0.175, JUST_ENOUGH", "0.2, TOO_COARSE"})
  void samplingOfNa09_isJudged(double pitch, Optics.Sampling expected) {
    Optics o = Optics.of(0.9, 550, Optional.of(Calibration.ofPixelPitch(pitch, 0)));
    assertEquals(expected, o.sampling().orElseThrow());
  }

  private static Visibility seen(InspectionSettings s, double node, Kind kind, Resolution r) {
    return NodeJudge.judge(node, s, r).structures().stream()
        .filter(x -> x.kind() == kind)
        .findFirst()
        .orElseThrow()
        .visibility();
  }

  /** Light of 400 to 700 nm cannot resolve a gate at 90 nm and below, through any objective. */
  @ParameterizedTest(name = "{0} nm light, NA {1}, {2} nm")
  @CsvSource({"400, 0.95, 90", "550, 0.9, 90", "700, 0.9, 90", "400, 1.4, 90", "400, 0.95, 28"})
  void gates_areNotResolvable(double wavelength, double na, double node) {
    InspectionSettings s =
        InspectionSettings.defaults().withWavelengthNm(wavelength).withAperture(na);
    assertEquals(Visibility.NOT_RESOLVABLE, seen(s, node, Kind.GATE, FINE));
  }

  @Test
  void verdicts_followTheSizes() {
    InspectionSettings s = InspectionSettings.defaults().withAperture(0.9);
    assertEquals(Visibility.RESOLVABLE, seen(s, 1000, Kind.GATE, FINE));
    assertEquals(Visibility.RESOLVABLE, seen(s, 130, Kind.BIT_CELL, FINE));
    assertEquals(Visibility.AT_THE_LIMIT, seen(s, 45, Kind.BIT_CELL, FINE));
    assertEquals(Visibility.NOT_RESOLVABLE, seen(s, 28, Kind.BIT_CELL, FINE));
    assertEquals(Visibility.RESOLVABLE, seen(s, 28, Kind.CELL_ROW, FINE));
    assertEquals(Visibility.RESOLVABLE, seen(s, 28, Kind.BOND_PAD, FINE));
  }

  @Test
  void coarsestLimit_decides() {
    InspectionSettings s =
        InspectionSettings.defaults()
            .withAperture(0.9)
            .withScale(Calibration.ofPixelPitch(0.5, 0.002));
    var sampled = NodeJudge.judge(130, s, FINE).structures().get(0);
    assertEquals(Limit.SAMPLING, sampled.limit());
    assertEquals(1.0, sampled.limitUm(), 1e-9);
    var soft = NodeJudge.judge(130, s, new Resolution(6, false)).structures().get(0);
    assertEquals(Limit.PHOTOGRAPH, soft.limit());
    assertEquals(3.0, soft.limitUm(), 1e-9);
  }

  /** Every figure of the small table lies within the ranges that the reference data give. */
  @Test
  void nodeSizes_lieInTheReferenceRanges() throws IOException {
    int checked = 0;
    for (String row : rows("nodes.csv")) {
      String[] c = row.split(",", 6);
      if (c.length < 6 || c[3].isEmpty() || c[4].isEmpty()) {
        continue;
      }
      double node = c[0].matches("[0-9.]+") ? Double.parseDouble(c[0]) : 0;
      // 150 and 16 nm are not in the small table; they come out between their neighbours.
      if (node < 14 || node > 350 || node == 150 || node == 16) {
        continue;
      }
      // Rows of one size only are those of one library.
      boolean rows = c[1].equals("std_cell_row_height_nm") && !c[3].equals(c[4]);
      boolean first = c[1].equals("sram6t_bitcell_um2") && row.contains("WikiChip");
      if (rows || first) {
        double low = Double.parseDouble(c[3]);
        double high = Double.parseDouble(c[4]);
        double side = NodeSizes.bitCellSide(node).um();
        double value =
            rows ? 1000 * NodeSizes.rowHeight(node).um() : side * side * NodeSizes.CELL_ASPECT;
        // The open libraries' exact rows may lie just below a remembered range.
        double slack = 1.02;
        assertTrue(value >= low / slack && value <= high * slack, row + " against " + value);
        checked++;
      }
    }
    assertTrue(checked >= 14, checked + " rows");
  }
}
