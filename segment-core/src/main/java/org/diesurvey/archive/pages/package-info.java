/**
 * What is made from the database of an archive: tables, the index, the summary over dies, the
 * description of the whole as a research object.
 */
package org.diesurvey.archive.pages;
