/** The HTML pages of a survey and of a comparison, each one file that needs nothing else. */
package org.diesurvey.report.page;
