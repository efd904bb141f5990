package org.diesurvey.examples;

import org.diesurvey.photo.DiePhoto;

/** From the samples of a camera of 12 bits, row by row. */
final class SamplesOfACamera {
  private SamplesOfACamera() {}

  static int run(short[] samples, int width, int height) {
    // begin
    try (DiePhoto photo = DiePhoto.of("camera", samples, width, height, 1)) {
      System.out.println(photo.levels().bits() + " bits in use");
      return photo.levels().bits();
    }
    // end
  }
}
