package org.diesurvey.photo;

import java.util.Optional;
import org.diesurvey.DieInputException;
import org.diesurvey.photo.PhotoInfo.TaggedScale;
import org.diesurvey.photo.file.PhotoFile;
import org.diesurvey.photo.tiff.TiffDirectory;
import org.diesurvey.photo.tiff.TiffTag;

/**
 * What an EXIF block says (a TIFF directory of its own, CIPA DC-008): orientation and resolution. A
 * damaged block says nothing; it never costs the photograph.
 *
 * @param orientation 1 to 8
 * @param scale of its resolution tags
 */
record ExifTags(int orientation, Optional<TaggedScale> scale) {
  static final ExifTags NONE = new ExifTags(1, Optional.empty());

  /** Reads the block from its byte-order mark on. */
  static ExifTags read(PhotoFile file, long at, int bytes) {
    try {
      TiffDirectory tags = TiffDirectory.read(file.part(at, bytes));
      Optional<TaggedScale> scale =
          TiffScale.ofResolution(tags)
              .map(s -> new TaggedScale(s.umPerPx(), s.origin().replace("TIFF", "EXIF")));
      return new ExifTags(orientation(tags), scale);
    } catch (DieInputException e) {
      return NONE;
    }
  }

  /** The orientation of a directory; 1 where it states none that exists. */
  static int orientation(TiffDirectory tags) {
    long code = tags.number(TiffTag.ORIENTATION, 1);
    return code >= 1 && code <= 8 ? (int) code : 1;
  }
}
