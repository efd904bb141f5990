/** A file of outlines in, of whatever kind: told by its content, checked before it is used. */
package org.diesurvey.interchange.reading;
