package org.diesurvey.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.diesurvey.report.table.CsvTable;
import org.diesurvey.report.table.RegionCsv;
import org.diesurvey.survey.SmallSurvey;
import org.junit.jupiter.api.Test;

class TablesTest {

  @Test
  void fieldsOfTheStandard_areQuotedAsItsExamplesAre() {
    // RFC 4180, 2, rules 6 and 7: "aaa","b CRLF bb","ccc" and "aaa","b""bb","ccc".
    CsvTable table = new CsvTable();
    table.text("aaa").text("b\r\nbb").text("ccc").end();
    table.text("aaa").text("b\"bb").text("c,cc").end();
    assertEquals("aaa,\"b\r\nbb\",ccc\r\naaa,\"b\"\"bb\",\"c,cc\"\r\n", table.toString());
  }

  @Test
  void formulas_areMadeText_butNumbersStay() {
    // OWASP, "CSV Injection": cells that begin with = + - @ tab or carriage return.
    CsvTable table = new CsvTable();
    table.text("=1+1").text("@x").text("-2").text("\tx").number("-2").end();
    assertEquals("'=1+1,'@x,'-2,'\tx,-2\r\n", table.toString());
  }

  @Test
  void regionTable_ofTheSmallSurvey() {
    String[] lines = RegionCsv.text(SmallSurvey.of(true, "=a,b.png")).split("\r\n");
    assertEquals(5, lines.length);
    int columns = lines[0].split(",", -1).length;
    assertEquals(
        "\"'=a,b.png\",MEM1,memory array,,0.000320000,0.00000320,80.00,0.104167,0.8000,"
            + "0.9000,0.0500,0.0300,0.0200,8.00,24.00,28.00,40.00,2.40000,0.0120,,90.00,,,,,"
            + "resolved in one direction,1,0.000192000,0.00000300,0.000128000,0.00000400,,,,,"
            + "LOG1 PAD1,,,,,,,",
        lines[1]);
    assertTrue(java.util.Arrays.stream(lines).anyMatch(l -> l.contains(",12,1.5,I/O cells,86.2,")));
    assertEquals(columns + 1, lines[1].split(",", -1).length, "the quoted comma makes one more");
    assertTrue(lines[4].contains(",unclear,empty,"));
  }

  @Test
  void regionTable_withoutScale_hasPixelsOnly() {
    String[] lines = RegionCsv.text(SmallSurvey.of(false)).split("\r\n");
    assertEquals(
        "small.png,MEM1,memory array,,,,80.00,0.104167,0.8000,0.9000,0.0500,0.0300,0.0200,,,,,"
            + ",,2.40000,90.00,,,,,resolved in one direction,1,,,,,,,,,LOG1 PAD1,,,,,,,",
        lines[1]);
    assertEquals(lines[0].split(",", -1).length, lines[1].split(",", -1).length);
  }
}
