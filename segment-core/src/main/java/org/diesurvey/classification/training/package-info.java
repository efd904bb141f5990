/** Models made from labelled tiles, and taught further from places that people have named. */
package org.diesurvey.classification.training;
