package org.diesurvey.synthetic;

import java.util.Optional;

/**
 * One true difference between two revisions. Rectangles lie in the die frame of the first revision
 * (um, origin at its upper left corner, x right, y down).
 *
 * @param kind what happened
 * @param beforeUm the block in the first revision; absent where it is new
 * @param afterUm the block in the second revision, or the edited area; absent where it is gone
 * @param description in words
 */
public record RevisionChange(
    Kind kind, Optional<RectUm> beforeUm, Optional<RectUm> afterUm, String description) {
  /** What can happen to a block. */
  public enum Kind {
    /** The same content at another place. */
    MOVED,
    /** The same kind of content, larger or smaller, one corner kept. */
    RESIZED,
    /** Another class in the same outline. */
    CLASS,
    /** Other content of the same class in the same outline, or logic placed again. */
    TEXTURE,
    /** A block where logic was. */
    NEW,
    /** Logic where a block was. */
    GONE
  }

  /** Checks that the places fit the kind. */
  public RevisionChange {
    if (beforeUm.isEmpty() != (kind == Kind.NEW) || afterUm.isEmpty() != (kind == Kind.GONE)) {
      throw new IllegalArgumentException(kind + " cannot have these places");
    }
  }

  /** Move along x in um, left side to left side; 0 where only one place is known. */
  public double movedXUm() {
    return both() ? afterUm.get().xUm() - beforeUm.get().xUm() : 0;
  }

  /** Move along y in um, upper side to upper side; 0 where only one place is known. */
  public double movedYUm() {
    return both() ? afterUm.get().yUm() - beforeUm.get().yUm() : 0;
  }

  private boolean both() {
    return beforeUm.isPresent() && afterUm.isPresent();
  }
}
