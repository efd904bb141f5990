/** Outlines as GDSII stream, out and in, and the records of such a stream. */
package org.diesurvey.interchange.gds;
