/**
 * Bulk surveys and the archive they end in: photographs, manifests and folders in; a folder with
 * one survey per photograph, one SQLite database, tables, index page and checksums out. Units stand
 * in the column names. Here: a photograph of a batch, what becomes of it, and who surveys it; the
 * work is in the packages inside. May use every other package; makes no measure itself.
 */
package org.diesurvey.archive;
