/**
 * How two pictures of a die lie over each other: a coarse search for turn and scale, places matched
 * one by one, the map that most of them agree on.
 */
package org.diesurvey.comparison.registration;
