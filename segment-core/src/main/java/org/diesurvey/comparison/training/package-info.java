/** Teaches the networks of a comparison from drawn pairs whose changes are known. */
package org.diesurvey.comparison.training;
