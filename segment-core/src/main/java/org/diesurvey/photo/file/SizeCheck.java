package org.diesurvey.photo.file;

/** Refuses a photograph for its size, before anything is decoded. */
public interface SizeCheck {
  /** Checks the size that a header states. */
  void checkSize(long width, long height);

  /** Checks what has to be decoded into one array. */
  void checkDecodedSize(long width, long height, int samples, int bytesPerSample);
}
