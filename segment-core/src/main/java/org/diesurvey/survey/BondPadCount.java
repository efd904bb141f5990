package org.diesurvey.survey;

import java.util.Optional;
import org.diesurvey.Supported;

/**
 * The bond pads of a pad ring.
 *
 * @param pads their number
 * @param counting how they were counted; empty in surveys that do not tell
 */
@Supported
public record BondPadCount(int pads, Optional<PadCounting> counting) {}
