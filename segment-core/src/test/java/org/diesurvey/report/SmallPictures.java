package org.diesurvey.report;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import org.diesurvey.report.picture.RegisteredPictures;

/**
 * Registered pictures that fit the small comparison: 2 um/px, the earlier dark, the later light.
 */
public final class SmallPictures {
  private SmallPictures() {}

  public static RegisteredPictures of() {
    return new RegisteredPictures(
        picture(new Color(0x334455)), picture(new Color(0x99AABB)), -20, 620, 2, 800, 600);
  }

  private static BufferedImage picture(Color ground) {
    BufferedImage image = new BufferedImage(420, 320, BufferedImage.TYPE_INT_RGB);
    Graphics2D g = image.createGraphics();
    g.setColor(Color.BLACK);
    g.fillRect(0, 0, 420, 320);
    g.setColor(ground);
    g.fillRect(10, 10, 400, 300);
    g.dispose();
    return image;
  }
}
