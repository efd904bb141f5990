package org.diesurvey.estimates;

import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;
import org.diesurvey.Supported;

/** What a memory region stores its bits in; static cells unless someone knows better. */
@Supported
public enum MemoryKind {
  STATIC(DensityQuantity.BIT_CELL_ONE_PORT_UM2),
  ROM(DensityQuantity.BIT_CELL_ROM_UM2),
  DYNAMIC(DensityQuantity.BIT_CELL_DYNAMIC_UM2),
  FLASH(DensityQuantity.BIT_CELL_FLASH_UM2);

  private final DensityQuantity cell;

  MemoryKind(DensityQuantity cell) {
    this.cell = cell;
  }

  DensityQuantity cell() {
    return cell;
  }

  /** Name for people and files. */
  public String label() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** The kind with this label. */
  public static Optional<MemoryKind> ofLabel(String label) {
    return Stream.of(values()).filter(k -> k.label().equals(label)).findFirst();
  }
}
