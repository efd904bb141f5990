package org.diesurvey.scoring;

import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * Pitches found in photographs of stage micrometers, against the true ones.
 *
 * @param photos one line each
 */
public record MicrometerScores(List<Line> photos) {
  /**
   * One photograph.
   *
   * @param name of the photograph
   * @param sharp whether the truth calls it sharp
   * @param trueUmPerPx true pitch, um/px
   * @param foundUmPerPx pitch found, um/px; empty if refused
   * @param lowUmPerPx low end of the stated interval of 95 %, 0 if refused
   * @param highUmPerPx high end of it, 0 if refused
   * @param refusal the sentence of the refusal, if refused
   */
  public record Line(
      String name,
      boolean sharp,
      double trueUmPerPx,
      Optional<Double> foundUmPerPx,
      double lowUmPerPx,
      double highUmPerPx,
      Optional<String> refusal) {
    /** Found over true, minus 1, in %; empty if refused. */
    public Optional<Double> errorPercent() {
      return foundUmPerPx.map(f -> 100 * (f / trueUmPerPx - 1));
    }

    /** Whether the stated interval holds the true pitch. */
    public boolean covers() {
      return foundUmPerPx.isPresent() && lowUmPerPx <= trueUmPerPx && trueUmPerPx <= highUmPerPx;
    }
  }

  /** Copies the list. */
  public MicrometerScores {
    photos = List.copyOf(photos);
  }

  /** Photographs refused. */
  public int refused() {
    return (int) photos.stream().filter(p -> p.refusal().isPresent()).count();
  }

  /** Largest error of the photographs read, %. */
  public double worstPercent(boolean sharpOnly) {
    return photos.stream()
        .filter(p -> p.sharp() || !sharpOnly)
        .flatMap(p -> p.errorPercent().stream())
        .mapToDouble(Math::abs)
        .max()
        .orElse(0);
  }

  /** Share of the photographs read whose interval holds the true pitch. */
  public double coverage() {
    long covered = photos.stream().filter(Line::covers).count();
    return covered / (double) Math.max(1, photos.size() - refused());
  }

  /**
   * The figures as text.
   *
   * @param each whether to list every photograph
   */
  public String text(boolean each) {
    StringBuilder text = new StringBuilder();
    TextColumns table = new TextColumns();
    table.row(List.of("photograph", "true um/px", "error, %", "interval, +-%", "holds truth"));
    for (Line p : photos) {
      if (p.refusal().isPresent()) {
        table.row(List.of(p.name(), TextColumns.number(p.trueUmPerPx(), 5), "refused", "-", "-"));
      } else {
        double half = 50 * (p.highUmPerPx() - p.lowUmPerPx()) / p.trueUmPerPx();
        table.row(
            List.of(
                p.name(),
                TextColumns.number(p.trueUmPerPx(), 5),
                TextColumns.signed(p.errorPercent().orElseThrow(), 4),
                TextColumns.number(half, 4),
                p.covers() ? "yes" : "no"));
      }
    }
    if (each) {
      text.append(table.text()).append('\n');
    }
    photos.stream()
        .filter(p -> p.refusal().isPresent())
        .forEach(p -> text.append("refused: ").append(p.refusal().orElseThrow()).append('\n'));
    long sharp = photos.stream().filter(Line::sharp).count();
    return text.append(
            String.format(
                Locale.ROOT,
                "%d photographs, %d refused; worst error %.4f %% (sharp ones, %d: %.4f %%);"
                    + " stated intervals of 95 %% hold the truth in %.1f %%%n",
                photos.size(),
                refused(),
                worstPercent(false),
                sharp,
                worstPercent(true),
                100 * coverage()))
        .toString()
        .replace("\r\n", "\n");
  }
}
