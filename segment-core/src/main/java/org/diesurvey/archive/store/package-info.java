/**
 * What an archive keeps, and where: its folder or its place in an object store, one run at a time;
 * its database, which can be made anew from the folders of the surveys.
 */
package org.diesurvey.archive.store;
