package org.diesurvey.calibration;

import org.diesurvey.Supported;

/** How the pixel pitch of a photograph came to be known. */
@Supported
public enum ScaleOrigin {
  /** Stated by the user as um per px. */
  STATED,
  /** Read from a calibration file, that is from a stage micrometer or another measured length. */
  CALIBRATION_FILE,
  /** The photo's own resolution metadata: often meaningless, used only with a warning. */
  PHOTO_METADATA,
  /** A stated die size and the die edge found in the photo. */
  DIE_SIZE
}
