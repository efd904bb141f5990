/**
 * A run from photographs to an archive: which photographs, in what order, with how much memory; and
 * the check of an archive.
 */
package org.diesurvey.archive.run;
