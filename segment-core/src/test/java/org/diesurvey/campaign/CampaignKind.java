package org.diesurvey.campaign;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Optional;
import java.util.Random;
import java.util.zip.CRC32;
import java.util.zip.GZIPInputStream;
import java.util.zip.GZIPOutputStream;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageWriteParam;
import javax.imageio.ImageWriter;
import javax.imageio.stream.ImageOutputStream;
import org.diesurvey.classification.model.TileClassifier;
import org.diesurvey.report.ExportKind;
import org.diesurvey.report.SurveyExport;
import org.diesurvey.survey.SmallSurvey;
import org.diesurvey.survey.json.SurveyJson;

/** The kinds of files that are read, each with a whole one to start from. */
enum CampaignKind {
  PNG(500, false),
  PNG_CHECKSUMS_MENDED(1500, false),
  JPEG(2000, false),
  JPEG_PROGRESSIVE(1500, false),
  TIFF_PLAIN(1000, false),
  TIFF_LZW(1500, false),
  TIFF_DEFLATE(1000, false),
  TIFF_PACKBITS(1000, false),
  TIFF_FLOAT(500, false),
  TIFF_JPEG(500, false),
  GEOJSON(1500, true),
  SVG(1500, true),
  GDSII(1500, false),
  ANNOTATIONS(1000, true),
  SURVEY(1500, true),
  CALIBRATION(500, true),
  MANIFEST(500, true),
  DENSITIES(500, true),
  MODEL_PACKED(300, false),
  MODEL_TEXT(200, true);

  private static final Instant MOMENT = Instant.parse("2026-01-31T12:34:56Z");
  private static final String CALIBRATION_TEXT =
      """
      {"format": "diesurvey-calibration", "format_version": 1, "um_per_px": 0.5,
       "standard_uncertainty_um_per_px": 0.002, "objective": "20x",
       "method": "stage micrometer", "measured_on": "2026-01-31"}
      """;
  private static final String MANIFEST_TEXT =
      """
      photo,um_per_px,u_um_per_px,node_nm,die_name,notes
      a.png,0.5,0.002,130,"lot ""7""\",first
      b/c.tif,,,,,
      d.jpg,1.25,,90,x,"two
      lines"
      """;

  private final int share;
  private final boolean text;

  CampaignKind(int share, boolean text) {
    this.share = share;
    this.text = text;
  }

  /** Files of 20,000. */
  int share() {
    return share;
  }

  /** Whether numbers and words are changed as well as bytes. */
  boolean isText() {
    return text;
  }

  boolean isPhoto() {
    return ordinal() <= TIFF_JPEG.ordinal();
  }

  /** A whole file of this kind. */
  byte[] whole(Path folder) throws IOException {
    return switch (this) {
      case PNG, PNG_CHECKSUMS_MENDED -> picture("png", null, false);
      case JPEG -> picture("jpeg", null, false);
      case JPEG_PROGRESSIVE -> picture("jpeg", null, true);
      case TIFF_PLAIN -> picture("tiff", null, false);
      case TIFF_LZW -> picture("tiff", "LZW", false);
      case TIFF_DEFLATE -> picture("tiff", "ZLib", false);
      case TIFF_PACKBITS -> picture("tiff", "PackBits", false);
      case TIFF_FLOAT -> resource("/org/diesurvey/photo/float-zip3.tif");
      case TIFF_JPEG -> picture("tiff", "JPEG", false);
      case GEOJSON -> export(ExportKind.GEOJSON, folder);
      case SVG -> export(ExportKind.SVG, folder);
      case GDSII -> export(ExportKind.GDSII, folder);
      case ANNOTATIONS -> export(ExportKind.ANNOTATIONS, folder);
      case SURVEY -> SurveyJson.write(SmallSurvey.of(true), Optional.of(MOMENT));
      case CALIBRATION -> CALIBRATION_TEXT.getBytes(StandardCharsets.UTF_8);
      case MANIFEST -> MANIFEST_TEXT.getBytes(StandardCharsets.UTF_8);
      case DENSITIES -> resource("/org/diesurvey/estimates/densities.csv");
      case MODEL_PACKED -> resource("/org/diesurvey/classification/tile-model.json.gz");
      case MODEL_TEXT -> unpacked(MODEL_PACKED.whole(folder));
    };
  }

  /** The bytes as they are read: a model's text is packed again after it was changed. */
  byte[] asFile(byte[] changed) throws IOException {
    if (this == PNG_CHECKSUMS_MENDED) {
      return mended(changed);
    }
    if (this != MODEL_TEXT) {
      return changed;
    }
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (GZIPOutputStream gzip = new GZIPOutputStream(out)) {
      gzip.write(changed);
    }
    return out.toByteArray();
  }

  /** Right checksums for all chunks, so that the reader gets beyond them. */
  private static byte[] mended(byte[] png) {
    ByteBuffer bytes = ByteBuffer.wrap(png);
    int at = 8;
    while (at + 12 <= png.length) {
      int length = bytes.getInt(at);
      if (length < 0 || length > png.length - at - 12) {
        break;
      }
      CRC32 crc = new CRC32();
      crc.update(png, at + 4, 4 + length);
      bytes.putInt(at + 8 + length, (int) crc.getValue());
      at += 12 + length;
    }
    return png;
  }

  private static byte[] export(ExportKind kind, Path folder) throws IOException {
    Path file = folder.resolve("whole-" + kind);
    new SurveyExport(SmallSurvey.of(true), MOMENT, Optional.of("small.png"), Optional.empty())
        .write(kind, file);
    return Files.readAllBytes(file);
  }

  private static byte[] resource(String name) throws IOException {
    try (InputStream in = TileClassifier.class.getResourceAsStream(name)) {
      return in.readAllBytes();
    }
  }

  private static byte[] unpacked(byte[] packed) throws IOException {
    try (GZIPInputStream in = new GZIPInputStream(new ByteArrayInputStream(packed))) {
      return in.readAllBytes();
    }
  }

  private static byte[] picture(String format, String coding, boolean progressive)
      throws IOException {
    BufferedImage image = new BufferedImage(120, 96, BufferedImage.TYPE_3BYTE_BGR);
    Random random = new Random(5);
    for (int y = 0; y < image.getHeight(); y++) {
      for (int x = 0; x < image.getWidth(); x++) {
        int v = 60 + (x / 7 % 2) * 90 + random.nextInt(40);
        image.setRGB(x, y, v << 16 | (v + 10) << 8 | (v - 20));
      }
    }
    ImageWriter writer = ImageIO.getImageWritersByFormatName(format).next();
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (ImageOutputStream out = ImageIO.createImageOutputStream(bytes)) {
      ImageWriteParam how = writer.getDefaultWriteParam();
      if (coding != null) {
        how.setCompressionMode(ImageWriteParam.MODE_EXPLICIT);
        how.setCompressionType(coding);
      }
      if (progressive) {
        how.setProgressiveMode(ImageWriteParam.MODE_DEFAULT);
      }
      writer.setOutput(out);
      writer.write(null, new IIOImage(image, null, null), how);
    } finally {
      writer.dispose();
    }
    return bytes.toByteArray();
  }
}
