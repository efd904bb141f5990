/**
 * What hides the die: residue, glare, dust, scratches and fields that are missing, told by their
 * look on the cells of the tiles. A damaged tile takes no part in any feature.
 */
package org.diesurvey.features.damage;
