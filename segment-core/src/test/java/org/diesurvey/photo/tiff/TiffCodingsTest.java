package org.diesurvey.photo.tiff;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.HexFormat;
import javax.imageio.ImageIO;
import org.diesurvey.photo.TestPictures;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The codings of strips and tiles for which the Java platform has no writer. */
class TiffCodingsTest {
  /** The frame was written by the program zstd 1.5. */
  @Test
  void zstandard_isUnpacked() {
    byte[] frame =
        HexFormat.of().parseHex("28b52ffd0058a500007064696520303132333435363738390100271d11");
    byte[] wanted =
        "die die die die die die die die die die 0123456789".getBytes(StandardCharsets.US_ASCII);
    byte[] out = new byte[wanted.length];
    assertEquals(wanted.length, TiffCompression.unpackZstd(frame, out));
    assertArrayEquals(wanted, out);
    frame[8] ^= 0x55;
    frame[9] ^= 0x55;
    assertTrue(TiffCompression.unpackZstd(frame, new byte[3]) < 3, "damage is noticed");
  }

  /** Tiles of JPEG with shared tables, against the platform's own decoding of the whole. */
  @ParameterizedTest(name = "tables apart {0}")
  @ValueSource(booleans = {true, false})
  void jpegTiles_areDecoded(boolean apart) throws IOException {
    BufferedImage image = TestPictures.picture(96, 64, 3, 8, 2);
    ByteArrayOutputStream written = new ByteArrayOutputStream();
    ImageIO.write(image, "jpeg", written);
    byte[] jpeg = written.toByteArray();
    byte[] tables = new byte[0];
    if (apart) {
      ByteArrayOutputStream head = new ByteArrayOutputStream();
      ByteArrayOutputStream body = new ByteArrayOutputStream();
      head.write(jpeg, 0, 2);
      body.write(jpeg, 0, 2);
      int at = 2;
      while ((jpeg[at + 1] & 0xff) != 0xda) {
        int length = 2 + ((jpeg[at + 2] & 0xff) << 8 | jpeg[at + 3] & 0xff);
        int marker = jpeg[at + 1] & 0xff;
        (marker == 0xdb || marker == 0xc4 ? head : body).write(jpeg, at, length);
        at += length;
      }
      body.write(jpeg, at, jpeg.length - at);
      head.write(new byte[] {(byte) 0xff, (byte) 0xd9});
      tables = head.toByteArray();
      jpeg = body.toByteArray();
    }
    byte[] out = new byte[96 * 64 * 3];
    assertEquals(out.length, TiffJpeg.decode(tables, jpeg, out, 96, 3, true));
    BufferedImage whole = ImageIO.read(new java.io.ByteArrayInputStream(written.toByteArray()));
    for (int i = 0; i < out.length; i++) {
      int seen = whole.getRaster().getSample(i / 3 % 96, i / 3 / 96, i % 3);
      assertEquals(seen, out[i] & 0xff, 2, "sample " + i);
    }
  }
}
