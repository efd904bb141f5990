package org.diesurvey.regions;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.diesurvey.tiles.TileGrid;
import org.junit.jupiter.api.Test;

/** Pictures of labels by hand: a digit is a label, o stays outside, a dot is open. */
class LabelSpreadTest {
  private static String spread(int columns, String rows) {
    int n = rows.length();
    int[] label = new int[n];
    boolean[] open = new boolean[n];
    for (int t = 0; t < n; t++) {
      open[t] = rows.charAt(t) == '.';
      label[t] = rows.charAt(t) == 'o' ? 200 : open[t] ? 5 : rows.charAt(t) - '0';
    }
    LabelSpread.into(label, open, new TileGrid(8, 1, 8 * columns, 8 * n / columns), 200);
    StringBuilder out = new StringBuilder();
    for (int t = 0; t < n; t++) {
      out.append(open[t] ? "." : label[t] == 200 ? "o" : String.valueOf(label[t]));
    }
    return out.toString();
  }

  /** The one in the middle of a cross has three neighbours of 2 and one of 1. */
  @Test
  void openTile_takesTheLabelOfMostNeighbours() {
    assertEquals(
        "020" //
            + "221" + "020",
        spread(
            3,
            "020" //
                + "2.1" + "020"));
  }

  /** From both ends at one tile a round; in the middle the lower label wins a draw. */
  @Test
  void gap_isFilledFromItsBorders() {
    assertEquals("1111333", spread(7, "1.....3"));
  }

  /** Rows are not joined across the border: the end of one and the begin of the next. */
  @Test
  void neighbours_shareASide_notACornerOrTheNextRow() {
    assertEquals(
        "oo4" //
            + "o.o" + "4oo",
        spread(
            3,
            "oo4" //
                + "o.o" + "4oo"));
    assertEquals("oo4" + ".oo", spread(3, "oo4" + ".oo"));
    assertEquals("oo." + "4oo", spread(3, "oo." + "4oo"));
  }

  @Test
  void columns_areFilledDownAndUp() {
    assertEquals("o3oo3oo3o", spread(3, "o3oo.oo.o"));
    assertEquals("o3oo3oo3o", spread(3, "o.oo.oo3o"));
  }

  @Test
  void withoutAnyLabel_tilesStayOpen() {
    assertEquals("....", spread(2, "...."));
  }
}
