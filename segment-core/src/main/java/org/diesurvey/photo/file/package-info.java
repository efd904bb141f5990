/**
 * An open file read by position, the sentences with which a photograph is refused, and blocks of
 * decoded samples: what all formats share.
 */
package org.diesurvey.photo.file;
