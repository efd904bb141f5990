package org.diesurvey.scoring;

import org.diesurvey.classification.DieClass;
import org.diesurvey.survey.Outline;

/**
 * The true outline of one block.
 *
 * @param dieClass what the block is
 * @param outlinePx in the pixel frame of the photograph
 */
public record TruthOutline(DieClass dieClass, Outline outlinePx) {}
