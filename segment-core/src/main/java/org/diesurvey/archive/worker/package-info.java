/**
 * Who surveys the photographs of a batch: this process, processes of this computer, the computers
 * of a cluster.
 */
package org.diesurvey.archive.worker;
