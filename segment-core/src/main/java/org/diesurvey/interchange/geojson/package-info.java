/** Outlines as GeoJSON (RFC 7946), out and in. */
package org.diesurvey.interchange.geojson;
