package org.diesurvey.synthetic;

import java.nio.file.Path;
import java.util.List;

/**
 * A block of a real layout, as its record beside the mask tells it.
 *
 * @param mask picture whose pixels hold one bit for each layer, see {@link LayoutMask}
 * @param kind what it is
 * @param technology process, in words; blocks of one process share it
 * @param umPerPx pitch of the mask, um/px
 * @param widthUm width, um
 * @param heightUm height, um
 * @param arrays rectangles of bit cells, um from the upper left corner, y down
 * @param bitCellWidthUm step of the bit cells across; 0 where unknown
 * @param bitCellHeightUm the same down
 * @param shown share of the block that diffusion or polysilicon covers, 0 to 1
 */
public record LayoutBlock(
    Path mask,
    Kind kind,
    String technology,
    double umPerPx,
    double widthUm,
    double heightUm,
    List<RectUm> arrays,
    double bitCellWidthUm,
    double bitCellHeightUm,
    double shown) {
  /** What a block is. */
  public enum Kind {
    /** Bit cells with or without their periphery, mask-programmed ones too. */
    MEMORY,
    /** Analog, power or radio-frequency block. */
    MACRO,
    /** Rows of standard cells. */
    LOGIC,
    /** One I/O cell; its lower side faces the die edge. */
    IO_CELL,
    /** I/O cells side by side, upright like single ones. */
    IO_ROW,
    /** Active or polysilicon fill without a circuit. */
    FILL
  }

  /** The same record as text, wherever its files lie. */
  String withoutPath() {
    return new LayoutBlock(
            Path.of(""),
            kind,
            technology,
            umPerPx,
            widthUm,
            heightUm,
            arrays,
            bitCellWidthUm,
            bitCellHeightUm,
            shown)
        .toString();
  }

  /** Copies the list. */
  public LayoutBlock {
    arrays = List.copyOf(arrays);
  }
}
