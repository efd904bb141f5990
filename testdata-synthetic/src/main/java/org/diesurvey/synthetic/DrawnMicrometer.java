package org.diesurvey.synthetic;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.PropertyNamingStrategies;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import javax.imageio.ImageIO;

/** Photo of a drawn stage micrometer with its truth. */
public final class DrawnMicrometer {
  private static final ObjectMapper JSON =
      JsonMapper.builder().propertyNamingStrategy(PropertyNamingStrategies.SNAKE_CASE).build();
  private final int widthPx;
  private final int heightPx;
  private final byte[] rgb;
  private final MicrometerTruth truth;

  DrawnMicrometer(int widthPx, int heightPx, byte[] rgb, MicrometerTruth truth) {
    this.widthPx = widthPx;
    this.heightPx = heightPx;
    this.rgb = rgb;
    this.truth = truth;
  }

  /** Photo width. */
  public int widthPx() {
    return widthPx;
  }

  /** Photo height. */
  public int heightPx() {
    return heightPx;
  }

  /** Red, green, blue per pixel, row by row, unsigned; the array itself, not a copy. */
  public byte[] rgb() {
    return rgb;
  }

  /** What the photo truly shows. */
  public MicrometerTruth truth() {
    return truth;
  }

  /**
   * Writes {@code name.png} (the losses of compression are in the pixels already) and {@code
   * name.json} with the truth; the folder is made if absent.
   *
   * @return path of the photo
   * @throws IOException if a file cannot be written
   */
  public Path write(Path folder, String name) throws IOException {
    Files.createDirectories(folder);
    Path photo = folder.resolve(name + ".png");
    ImageIO.write(JpegTrip.image(rgb, widthPx, heightPx), "png", photo.toFile());
    ObjectNode root = JSON.createObjectNode().put("image", name + ".png");
    root.setAll((ObjectNode) JSON.valueToTree(truth));
    root.put("width_px", widthPx).put("height_px", heightPx);
    try {
      Files.writeString(
          folder.resolve(name + ".json"),
          JSON.writerWithDefaultPrettyPrinter().writeValueAsString(root) + "\n");
    } catch (JsonProcessingException e) {
      throw new IllegalStateException(e);
    }
    return photo;
  }
}
