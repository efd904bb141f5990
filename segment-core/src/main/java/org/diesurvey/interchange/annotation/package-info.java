/** Outlines as W3C Web Annotations, out and in; their shapes are those of SVG. */
package org.diesurvey.interchange.annotation;
