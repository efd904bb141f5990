/**
 * From tiles to regions. In: class probabilities on the tile grid and the picture's edges. Out:
 * outlines with class and confidence, in pixels and in the die frame. Gives no areas in mm2. May
 * use: the packages above, classification included.
 */
package org.diesurvey.regions;
