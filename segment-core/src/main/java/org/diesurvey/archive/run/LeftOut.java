package org.diesurvey.archive.run;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * What a search for photographs passed over, because this program made it.
 *
 * @param archives that lie in the folder
 * @param results folders of surveys and comparisons
 * @param pictures single pictures
 */
public record LeftOut(int archives, int results, int pictures) {
  /** Nothing. */
  public static final LeftOut NOTHING = new LeftOut(0, 0, 0);

  /** Both together. */
  public LeftOut and(LeftOut more) {
    return new LeftOut(archives + more.archives, results + more.results, pictures + more.pictures);
  }

  /** In a sentence; empty for nothing. */
  public Optional<String> sentence() {
    List<String> parts = new ArrayList<>();
    if (archives > 0) {
      parts.add(archives + (archives == 1 ? " archive" : " archives"));
    }
    if (results > 0) {
      parts.add(
          results
              + (results == 1
                  ? " folder of a survey or comparison"
                  : " folders of surveys or comparisons"));
    }
    if (pictures > 0) {
      parts.add(pictures + (pictures == 1 ? " picture" : " pictures") + " made by this program");
    }
    return parts.isEmpty()
        ? Optional.empty()
        : Optional.of("left out of the search: " + String.join(", ", parts));
  }
}
