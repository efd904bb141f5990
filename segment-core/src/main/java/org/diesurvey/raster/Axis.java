package org.diesurvey.raster;

import org.diesurvey.Supported;

/** An axis of a picture. */
@Supported
public enum Axis {
  /** From left to right. */
  X,
  /** From top to bottom. */
  Y
}
