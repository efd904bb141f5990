/**
 * From changed tiles to changes: pieces that belong together, blocks that moved, what kind each
 * change is, and regions matched across revisions.
 */
package org.diesurvey.comparison.changes;
