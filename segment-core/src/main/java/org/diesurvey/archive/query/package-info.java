/** What is asked of an archive: rows of its database, expressions to find dies by, like layouts. */
package org.diesurvey.archive.query;
