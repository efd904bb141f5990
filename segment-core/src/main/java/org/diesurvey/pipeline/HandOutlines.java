package org.diesurvey.pipeline;

import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.classification.DieClass;
import org.diesurvey.classification.UnclearReason;
import org.diesurvey.estimates.MemoryKind;
import org.diesurvey.interchange.ClassedOutline;
import org.diesurvey.interchange.MemoryFacts;
import org.diesurvey.interchange.OutlineFrame;
import org.diesurvey.interchange.OutlineSet;
import org.diesurvey.interchange.PhotoLink;
import org.diesurvey.interchange.reading.OutlineFiles;

/**
 * The outlines of one file.
 *
 * @param fileName without folders
 * @param sha256 of the file, hexadecimal
 * @param inUm whether coordinates are um of the die frame (origin lower left, y up); else px of the
 *     photograph (origin upper left, y down)
 * @param photo that they were drawn on, where the file says
 * @param regions in the order of the file
 */
public record HandOutlines(
    String fileName, String sha256, boolean inUm, PhotoLink photo, List<HandOutline> regions) {
  /** Copies the list. */
  public HandOutlines {
    regions = List.copyOf(regions);
  }

  /**
   * Reads a file of any kind that {@link OutlineFiles} reads.
   *
   * @throws DieInputException as {@link OutlineFiles#read}; OUTLINES_INVALID for a file without a
   *     region
   */
  public static HandOutlines read(Path file) {
    byte[] bytes = OutlineFiles.bytes(file);
    return of(OutlineFiles.parse(bytes, file.toString()), file, sha256(bytes));
  }

  private static HandOutlines of(OutlineSet set, Path file, String sha256) {
    if (set.regions().isEmpty()) {
      throw new DieInputException(
          Reason.OUTLINES_INVALID,
          file + ": there is no region in this file; draw at least one outline.");
    }
    return new HandOutlines(
        String.valueOf(file.getFileName()),
        sha256,
        set.frame() == OutlineFrame.DIE_UM,
        set.photo(),
        set.regions().stream().map(o -> region(o, set)).toList());
  }

  private static HandOutline region(ClassedOutline o, OutlineSet set) {
    return new HandOutline(
        o.id(),
        o.dieClass(),
        o.dieClass() == DieClass.UNCLEAR
            ? Optional.of(
                o.reason().flatMap(UnclearReason::ofLabel).orElse(UnclearReason.UNDECIDED))
            : Optional.empty(),
        o.shape(),
        set.bitCellsOf(o.id()).stream().map(ClassedOutline::shape).toList(),
        o.memory().map(MemoryFacts::kind).orElse(MemoryKind.STATIC),
        o.memory().map(MemoryFacts::ports).orElse(OptionalInt.empty()));
  }

  private static String sha256(byte[] bytes) {
    try {
      return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }
}
