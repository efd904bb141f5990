/**
 * From features to class probabilities. In: feature values. Out: the probability of each class per
 * tile, calibrated. Reads no pixels. The only package that uses Smile. May use: quantity, raster,
 * tiles, features, Smile, Commons Math.
 */
package org.diesurvey.classification;
