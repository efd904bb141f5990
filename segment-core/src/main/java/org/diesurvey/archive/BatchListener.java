package org.diesurvey.archive;

import org.diesurvey.Supported;

/** Told how a run goes; calls come one at a time, from several threads. */
@Supported
public interface BatchListener {
  /** Hears nothing. */
  BatchListener SILENT = (outcome, progress) -> {};

  /**
   * A photograph is about to be told as rejected or failed, for this reason. Of a fault in another
   * process the cause carries that process's stack trace as its message.
   */
  default void lost(BatchPhoto photo, RuntimeException why) {}

  /** Something about the archive that its owner should know. */
  default void said(String sentence) {}

  /** A photograph is done, well or badly. */
  void done(BatchOutcome outcome, BatchProgress progress);
}
