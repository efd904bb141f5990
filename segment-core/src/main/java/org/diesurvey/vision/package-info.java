/**
 * Image operations. In: rasters. Out: rasters or outlines, in pixels. The only package that uses
 * OpenCV; its matrices never appear outside. May use: raster, OpenCV.
 */
package org.diesurvey.vision;
