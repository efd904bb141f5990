package org.diesurvey.archive.query;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.diesurvey.DieInputException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class FindExpressionTest {
  @Test
  void percentAndNode_becomeParameters() {
    FindExpression.Condition c = FindExpression.parse("memory share > 40 % and node = 90");
    assertEquals("((memory_share > ?) AND (node_nm = ?))", c.sql());
    assertEquals(List.of(0.4, 90.0), c.parameters());
  }

  @Test
  void andBindsTighterThanOr_bracketsWin() {
    assertEquals(
        "((node_nm = ?) OR ((bits > ?) AND (regions < ?)))",
        FindExpression.parse("node=1 or bits>2 and regions<3").sql());
    assertEquals(
        "(((node_nm = ?) OR (bits > ?)) AND (regions < ?))",
        FindExpression.parse("(node=1 or bits>2) and regions<3").sql());
  }

  @ParameterizedTest(name = "{0}")
  @ValueSource(
      strings = {
        "die name = \"x'; DROP TABLE photo; --\"",
        "notes contains \"%' OR 1=1\"",
        "revision = '1; DELETE FROM photo'"
      })
  void text_neverEntersTheSql(String expression) {
    FindExpression.Condition c = FindExpression.parse(expression);
    assertTrue(c.sql().matches("[a-z_ ()?=>A-Z0,]*"), c.sql());
    assertFalse(c.sql().contains("D" + "ROP"));
    assertEquals(1, c.parameters().size());
  }

  @ParameterizedTest(name = "{0}")
  @CsvSource(
      delimiter = '|',
      value = {
        "memory share > 40 | write 40 %",
        "area > 3 | 'area' is no field",
        "node = 90 nm | 'nm' was not expected",
        "node = 0,9 | is not a number",
        "node 90 | comes a comparison",
        "(node = 90 | closing bracket",
        "node = | a value is missing",
        "node contains 9 | is a number",
        "node = 9 % | not given in percent",
        "node = 90; drop | is not a number",
      })
  void mistakes_areNamed(String expression, String words) {
    String said =
        assertThrows(DieInputException.class, () -> FindExpression.parse(expression)).getMessage();
    assertTrue(said.contains(words), said);
  }

  @Test
  void endlessBrackets_areRefused() {
    assertThrows(
        DieInputException.class, () -> FindExpression.parse("(".repeat(3000) + "node = 1"));
  }
}
