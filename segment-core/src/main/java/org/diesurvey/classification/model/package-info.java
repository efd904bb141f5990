/**
 * The trained model: its stages and networks, what it knows of pictures and of the confidence of
 * regions, its file; and the classifier that asks it.
 */
package org.diesurvey.classification.model;
