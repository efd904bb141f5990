/**
 * Surveys against the truth. In: label maps, regions with confidence, truth files. Out: score
 * cards, and their text and JSON. Overlaps and shares are 0 to 1 or in percentage points, areas in
 * mm2, edge distances in um (in px where the truth has no scale). Start at {@link
 * org.diesurvey.scoring.DieScorer}. May use: the packages above and Commons Math.
 */
package org.diesurvey.scoring;
