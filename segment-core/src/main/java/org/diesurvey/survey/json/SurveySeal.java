package org.diesurvey.survey.json;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.List;
import org.diesurvey.BoundedFile;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;

/**
 * The list of checksums that is written beside a survey, {@code checksums.sha256}: a document that
 * was changed since is not taken for what the program found.
 */
final class SurveySeal {
  private static final String LIST = "checksums.sha256";
  private static final long MOST_BYTES = 16L << 20;
  private static final int HEX_DIGITS = 64;

  private SurveySeal() {}

  /**
   * Refuses a document whose SHA-256 is not the one in the list beside it. Without a list, or where
   * the list does not name it, nothing is known and nothing is refused.
   *
   * @param file the document
   * @param bytes its content
   * @throws DieInputException DOCUMENT_INVALID
   */
  static void requireUnaltered(Path file, byte[] bytes) throws IOException {
    Path list = file.toAbsolutePath().resolveSibling(LIST);
    if (!Files.isRegularFile(list)) {
      return;
    }
    String text =
        new String(
            BoundedFile.bytes(list, MOST_BYTES, Reason.DOCUMENT_INVALID), StandardCharsets.UTF_8);
    List<String> sums =
        text.lines()
            .filter(l -> l.length() > HEX_DIGITS + 2)
            .filter(l -> l.substring(HEX_DIGITS + 2).equals(file.getFileName().toString()))
            .map(l -> l.substring(0, HEX_DIGITS))
            .toList();
    if (!sums.isEmpty() && !sums.contains(sha256(bytes))) {
      throw new DieInputException(
          Reason.DOCUMENT_INVALID,
          file
              + ": this survey was altered after it was written (its SHA-256 is not the one in "
              + LIST
              + " beside it); survey the photograph again, or copy the file elsewhere if the"
              + " change is meant.");
    }
  }

  private static String sha256(byte[] bytes) {
    try {
      return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }
}
