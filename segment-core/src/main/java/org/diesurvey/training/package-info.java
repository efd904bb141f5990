/**
 * Training of the tile classifier, and of the confidence of regions, from dies whose truth is
 * known. In: labelled tiles, die by die. Out: a classifier. May use: the packages above.
 */
package org.diesurvey.training;
