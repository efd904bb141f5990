/**
 * A batch on Apache Spark. The archive is written by a process of this program; this package only
 * carries its lines of text to the cluster and back, and starts on each executor the same worker
 * processes as a local batch does. So Spark's class path holds nothing of the library, and a fault
 * in native code ends a worker process, not an executor.
 */
package org.diesurvey.spark;
