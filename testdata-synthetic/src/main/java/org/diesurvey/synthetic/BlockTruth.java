package org.diesurvey.synthetic;

import java.util.List;

/**
 * What one block of a drawn die truly is.
 *
 * @param id unique within the die, for example {@code MEM3}
 * @param surface code of {@link SurfaceLabel}: memory array for a whole memory macro, hard macro,
 *     logic, pad ring
 * @param description kind in words
 * @param outlineUm outline in the die frame, with other blocks inside it not cut out
 * @param holesUm rectangles not part of the block
 * @param arraysUm bit-cell rectangles of a memory macro; empty otherwise
 * @param bits stored bits; 0 if none
 * @param nand2Equivalents logic size; 0 if none
 * @param bitCellWidthUm pitch of the bit cells across, in the frame of the macro before it is
 *     turned; 0 if none
 * @param bitCellHeightUm pitch of the bit cells down, likewise
 * @param turned whether the macro's x runs down the die
 */
public record BlockTruth(
    String id,
    byte surface,
    String description,
    RectUm outlineUm,
    List<RectUm> holesUm,
    List<RectUm> arraysUm,
    long bits,
    long nand2Equivalents,
    double bitCellWidthUm,
    double bitCellHeightUm,
    boolean turned) {
  /** Copies the lists. */
  public BlockTruth {
    holesUm = List.copyOf(holesUm);
    arraysUm = List.copyOf(arraysUm);
  }
}
