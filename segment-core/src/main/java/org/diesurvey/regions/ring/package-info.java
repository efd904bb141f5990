/** The pad ring on the grid of tiles, the strip that it fills on each side, and its bond pads. */
package org.diesurvey.regions.ring;
