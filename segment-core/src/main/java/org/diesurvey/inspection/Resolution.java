package org.diesurvey.inspection;

/**
 * What the spectrum of the photograph holds.
 *
 * @param finestPeriodPx finest period that stands out of the noise, px, at least 2
 * @param atSamplingLimit whether detail goes down to two pixels, so that the sampling and not the
 *     optics sets the limit
 */
public record Resolution(double finestPeriodPx, boolean atSamplingLimit) {}
