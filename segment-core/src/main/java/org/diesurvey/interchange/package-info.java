/**
 * Outlines out to other programs and back in: GeoJSON, SVG, GDSII stream, W3C Web Annotations; and
 * blocks of layouts in, as layer masks to train with. What goes out is made from a survey alone;
 * what comes in is checked before anybody computes with it. Coordinates are those of the die (um, y
 * up) or of the photograph (px, y down), and every set says which. Files are taken as hostile:
 * sizes, depths, numbers and references are limited. Here is what all formats share; each has a
 * package inside.
 */
package org.diesurvey.interchange;
