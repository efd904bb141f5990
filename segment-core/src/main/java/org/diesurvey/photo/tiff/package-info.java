/**
 * TIFF 6.0 and BigTIFF: directories and their tags, how pixels are written, where strips and tiles
 * lie, and their samples. Makes no photograph of them.
 */
package org.diesurvey.photo.tiff;
