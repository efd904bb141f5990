/** Outlines as SVG 1.1 paths, out and in. */
package org.diesurvey.interchange.svg;
