/**
 * What may be written, replaced and removed on a disk, for all commands: only what carries the mark
 * of this program, never what was read in the same call, never through a symbolic link.
 */
package org.diesurvey.files;
