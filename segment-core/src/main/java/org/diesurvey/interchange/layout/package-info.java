/**
 * Blocks of layouts in, as masks of layers to train with: cells flattened, shapes counted per
 * pixel.
 */
package org.diesurvey.interchange.layout;
