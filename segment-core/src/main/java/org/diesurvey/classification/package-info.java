/**
 * The classes of surfaces and of regions, and the probability of each class per tile. Reads neither
 * pixels nor features: the model that gives the probabilities, and its training, are in the
 * packages inside, the only ones that use Smile. May use: tiles.
 */
package org.diesurvey.classification;
