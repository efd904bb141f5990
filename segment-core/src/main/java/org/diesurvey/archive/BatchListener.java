package org.diesurvey.archive;

/** Told how a run goes; calls come one at a time, from several threads. */
public interface BatchListener {
  /** Hears nothing. */
  BatchListener SILENT = (outcome, progress) -> {};

  /** A photograph is done, well or badly. */
  void done(BatchOutcome outcome, BatchProgress progress);
}
