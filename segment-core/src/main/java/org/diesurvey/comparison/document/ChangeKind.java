package org.diesurvey.comparison.document;

import org.diesurvey.Supported;

/** What happened to a block or to a piece of ground between two revisions. */
@Supported
public enum ChangeKind {
  /** The same block at another place. */
  MOVED("moved"),
  /** The same block, larger or smaller. */
  RESIZED("resized"),
  /** A block of another class in the same outline. */
  CLASS("class"),
  /** Same outline and class, other content. */
  TEXTURE("texture"),
  /** A block that the first die does not have. */
  NEW("new"),
  /** A block that the second die does not have. */
  GONE("gone");

  private final String id;

  ChangeKind(String id) {
    this.id = id;
  }

  /** As written in documents, lower case. */
  public String id() {
    return id;
  }
}
