/** Tables as CSV: regions and changes, one row each. */
package org.diesurvey.report.table;
