/** The same as PDF/A-1b for the archive. */
package org.diesurvey.report.pdf;
