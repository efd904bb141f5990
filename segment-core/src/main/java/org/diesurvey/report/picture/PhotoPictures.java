package org.diesurvey.report.picture;

import org.diesurvey.photo.PixelSource;

/**
 * What the files of a survey show of the photograph alone: made when first asked for, or before, by
 * another thread while the photograph is still being surveyed.
 */
public final class PhotoPictures {
  private final PixelSource photo;
  private final Object reducing = new Object();
  private final Object tiling = new Object();
  private ReducedPhoto reduced;
  private PhotoPyramid pyramid;

  private PhotoPictures(PixelSource photo) {
    this.photo = photo;
  }

  /** Pictures of a photograph, which must stay open until the last of them was made. */
  public static PhotoPictures of(PixelSource photo) {
    return new PhotoPictures(photo);
  }

  /** Makes all of them. */
  public void make() {
    reduced();
    pyramid();
  }

  /** For the overlay, which is drawn on it. */
  ReducedPhoto reduced() {
    synchronized (reducing) {
      if (reduced == null) {
        reduced = ReducedPhoto.of(photo, OverlayPicture.LONGEST_PX);
      }
      return reduced;
    }
  }

  /** For the page. */
  public PhotoPyramid pyramid() {
    synchronized (tiling) {
      if (pyramid == null) {
        pyramid = PhotoPyramid.of(photo);
      }
      return pyramid;
    }
  }
}
