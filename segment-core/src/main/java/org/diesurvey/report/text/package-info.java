/**
 * Words and numbers for people: names of classes and changes, values with their units and digits.
 */
package org.diesurvey.report.text;
