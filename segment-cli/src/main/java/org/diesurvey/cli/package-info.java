/**
 * The command diesurvey: options, wording and exit codes over the library. What comes in is the
 * words of the user and files; what goes out is text, folders and an exit code. No science here:
 * every figure comes from the library.
 */
package org.diesurvey.cli;
