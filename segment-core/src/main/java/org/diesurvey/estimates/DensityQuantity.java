package org.diesurvey.estimates;

import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;

/** What a row of a density table states; the unit stands at the end of the name. */
public enum DensityQuantity {
  /** Area of a six-transistor bit cell with one port, logic devices. */
  BIT_CELL_ONE_PORT_UM2(true),
  /** Area of a bit cell with two ports. */
  BIT_CELL_TWO_PORT_UM2(true),
  /** Area of a bit of read-only memory: a wide band. */
  BIT_CELL_ROM_UM2(true),
  /** Area of a bit of dynamic memory: a wide band. */
  BIT_CELL_DYNAMIC_UM2(true),
  /** Area of a bit of flash memory: a wide band. */
  BIT_CELL_FLASH_UM2(true),
  /** NAND2-equivalents per mm2 if cells filled every row, in thousands. */
  GATE_DENSITY_KGATES_PER_MM2(true),
  /** Height of a standard-cell row. */
  ROW_HEIGHT_UM(true),
  /** Share of a logic area that cells fill. */
  UTILISATION(false),
  /** Area of the smallest two-input NAND over the square of the row height. */
  NAND2_AREA_IN_ROW_HEIGHTS_SQUARED(false),
  /** Bits times cell area over the area of the bit-cell arrays alone. */
  ARRAY_EFFICIENCY(false),
  /** Area of a one-port cell of thick-oxide devices or logic rules over the ordinary one. */
  THICK_OXIDE_CELL_IN_ONE_PORT_CELLS(false);

  private final boolean perNode;

  DensityQuantity(boolean perNode) {
    this.perNode = perNode;
  }

  /** Whether rows are for one process node; else for any. */
  public boolean perNode() {
    return perNode;
  }

  /** Name in tables: lower case with underscores. */
  public String label() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** The quantity with this label. */
  static Optional<DensityQuantity> ofLabel(String label) {
    return Stream.of(values()).filter(q -> q.label().equals(label)).findFirst();
  }
}
