package org.diesurvey.photo;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.diesurvey.photo.file.PhotoFile;
import org.diesurvey.photo.tiff.TiffChunks;
import org.diesurvey.photo.tiff.TiffDecoder;
import org.diesurvey.photo.tiff.TiffDirectory;
import org.diesurvey.photo.tiff.TiffForm;
import org.diesurvey.photo.tiff.TiffTag;

/** Opens one picture of a TIFF: the first of full size, or the plane that is asked for. */
final class TiffPhoto {
  private static final int MAX_DESCRIPTION_BYTES = 1 << 24;
  private static final int MAX_TABLE_BYTES = 1 << 16;

  /** Bits of NewSubfileType (TIFF 6.0, section 8): a reduced picture, a transparency mask. */
  private static final int NO_PICTURE = 1 | 4;

  private TiffPhoto() {}

  static DiePhoto open(PhotoFile file, ReadLimits limits, OptionalInt wanted) {
    List<TiffDirectory> chain = TiffDirectory.read(file).chain();
    List<Integer> pictures = new ArrayList<>();
    for (int i = 0; i < chain.size(); i++) {
      if ((chain.get(i).number(TiffTag.NEW_SUBFILE_TYPE, 0) & NO_PICTURE) == 0) {
        pictures.add(i);
      }
    }
    if (pictures.isEmpty()) {
      throw file.refusals().unsupported("a reduced preview as its only picture");
    }
    TiffDirectory first = chain.get(pictures.get(0));
    int stack = pictures.size() == 1 ? stack(first) : 1;
    int planes = Math.max(stack, pictures.size());
    DiePhoto.requirePlane(file, wanted, planes);
    int plane = wanted.orElse(1);
    int index = pictures.get(stack > 1 ? 0 : plane - 1);
    TiffDirectory tags = chain.get(index);
    SizeLimits sizes = new SizeLimits(file.refusals(), file.size(), limits);
    TiffForm form = TiffForm.read(tags, file, sizes);
    int orientation = ExifTags.orientation(tags);
    PhotoHeader header =
        new PhotoHeader(
            form.width(),
            form.height(),
            form.shownBits(),
            form.shownSamples(),
            TiffScale.read(tags),
            orientation);
    if (form.whole()) {
      if (tags.big()) {
        throw file.refusals().unsupported("a BigTIFF with a palette or with packed bits");
      }
      if (form.compression() == TiffForm.ZSTD) {
        throw file.refusals().unsupported("a palette or packed bits in Zstandard");
      }
      TiffChunks.read(tags, form, file, sizes, 0);
      Reading reading = new Reading(plane, planes, orientation, List.of());
      return DiePhoto.decoded(file, FileFormat.TIFF, header, limits, index, reading);
    }
    long planeBytes = (long) form.width() * form.height() * form.samples() * form.bits() / 8;
    long shift = stack > 1 ? (plane - 1) * planeBytes : 0;
    TiffChunks chunks = TiffChunks.read(tags, form, file, sizes, shift);
    byte[] tables = tags.bytes(TiffTag.JPEG_TABLES, MAX_TABLE_BYTES);
    TiffDecoder decoder = new TiffDecoder(file, tags.order(), form, chunks, tables);
    Reading reading = new Reading(plane, planes, orientation, conversions(form, decoder));
    TiffPixels pixels = new TiffPixels(file, form, chunks, decoder);
    PhotoInfo info = DiePhoto.info(file, FileFormat.TIFF, header, reading);
    return new DiePhoto(info, pixels, Optional.empty(), reading);
  }

  /** Planes behind each other without directories of their own: uncompressed ones only. */
  private static int stack(TiffDirectory tags) {
    return tags.number(TiffTag.COMPRESSION, TiffForm.NONE) == TiffForm.NONE
        ? TiffScale.imageJPlanes(tags.text(TiffTag.IMAGE_DESCRIPTION, MAX_DESCRIPTION_BYTES))
        : 1;
  }

  private static List<String> conversions(TiffForm form, TiffDecoder decoder) {
    if (decoder.range().isPresent()) {
      return List.of(decoder.range().get().sentence(form.bits()));
    }
    return form.colours() == TiffForm.Colours.INKS
        ? List.of("CMYK inks were turned into RGB without a colour profile")
        : List.of();
  }
}
