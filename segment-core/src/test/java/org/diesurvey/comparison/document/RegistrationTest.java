package org.diesurvey.comparison.document;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Path;
import javax.imageio.ImageIO;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.comparison.ComparisonResult;
import org.diesurvey.comparison.LayoutComparer;
import org.diesurvey.comparison.registration.ComparisonSide;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.pipeline.DieSegmenter;
import org.diesurvey.pipeline.ScaleInput;
import org.diesurvey.raster.PlaneTransform;
import org.diesurvey.synthetic.DieFiles;
import org.diesurvey.synthetic.RevisionOptions;
import org.diesurvey.synthetic.RevisionPair;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import org.opencv.core.TermCriteria;
import org.opencv.video.Video;

/** One drawn photograph against itself resampled through a known map. */
class RegistrationTest {
  @TempDir static Path temp;
  private static BufferedImage picture;
  private static double pitchUm;

  /** From the first photograph to the second, px, corners of pixels at whole numbers. */
  private record Homography(
      double a, double b, double c, double d, double e, double f, double g, double h) {
    double x(double x, double y) {
      return (a * x + b * y + c) / (g * x + h * y + 1);
    }

    double y(double x, double y) {
      return (d * x + e * y + f) / (g * x + h * y + 1);
    }
  }

  @BeforeAll
  static void draw() throws IOException {
    RevisionPair pair =
        RevisionPair.draw(
            620004, RevisionOptions.defaults().withMaxMegapixels(1.2).withGrowth(0).unchanged());
    Path file = DieFiles.write(pair.first(), temp, "first", DieFiles.Format.PNG);
    picture = ImageIO.read(file.toFile());
    pitchUm = pair.truth().firstStatedUmPerPx();
  }

  /** The picture seen through the inverse of a map: places of the result to places in it. */
  private static BufferedImage resampled(Homography toPicture) {
    int w = picture.getWidth();
    int h = picture.getHeight();
    BufferedImage out = new BufferedImage(w, h, BufferedImage.TYPE_INT_RGB);
    for (int y = 0; y < h; y++) {
      for (int x = 0; x < w; x++) {
        double u = toPicture.x(x + 0.5, y + 0.5) - 0.5;
        double v = toPicture.y(x + 0.5, y + 0.5) - 0.5;
        int u0 = (int) Math.max(0, Math.min(w - 2, Math.floor(u)));
        int v0 = (int) Math.max(0, Math.min(h - 2, Math.floor(v)));
        double fu = Math.max(0, Math.min(1, u - u0));
        double fv = Math.max(0, Math.min(1, v - v0));
        int rgb = 0;
        for (int shift = 0; shift <= 16; shift += 8) {
          double upper = mixed(grey(u0, v0, shift), grey(u0 + 1, v0, shift), fu);
          double lower = mixed(grey(u0, v0 + 1, shift), grey(u0 + 1, v0 + 1, shift), fu);
          rgb |= (int) Math.round(mixed(upper, lower, fv)) << shift;
        }
        out.setRGB(x, y, rgb);
      }
    }
    return out;
  }

  private static int grey(int x, int y, int shift) {
    return picture.getRGB(x, y) >> shift & 255;
  }

  private static double mixed(double p, double q, double share) {
    return p + share * (q - p);
  }

  private static ComparisonResult compared(BufferedImage second) throws IOException {
    Path first = temp.resolve("a.png");
    Path other = temp.resolve("b.png");
    ImageIO.write(picture, "png", first.toFile());
    ImageIO.write(second, "png", other.toFile());
    DieSegmenter segmenter = DieSegmenter.withDefaults();
    ScaleInput scale = new ScaleInput.Known(Calibration.ofPixelPitch(pitchUm, 0));
    try (DiePhoto a = DiePhoto.open(first);
        DiePhoto b = DiePhoto.open(other)) {
      return new LayoutComparer("test")
          .compare(
              new ComparisonSide(segmenter.survey(a, scale), a),
              new ComparisonSide(segmenter.survey(b, scale), b));
    }
  }

  /** Place in the first photograph where the registration sees a place of the second, px. */
  private interface Expected {
    double[] in(double xOfSecond, double yOfSecond);
  }

  /** The largest distance from what is expected, over 25 places of the die, um. */
  private static double worstUm(ComparisonResult r, Expected expected) {
    PlaneTransform aToB = r.comparison().registration().aToB();
    double worst = 0;
    for (int i = 0; i < 25; i++) {
      double x = r.placeA().width() * (0.06 + 0.22 * (i % 5));
      double y = r.placeA().height() * (0.06 + 0.22 * (i / 5));
      double bx = aToB.x(x, y);
      double by = aToB.y(x, y);
      double[] at = expected.in(r.placeB().photoX(bx, by), r.placeB().photoY(bx, by));
      worst =
          Math.max(
              worst,
              pitchUm
                  * Math.hypot(at[0] - r.placeA().photoX(x, y), at[1] - r.placeA().photoY(x, y)));
    }
    return worst;
  }

  /** Turned and larger by 0.6 %, with or without tilt: keystone of some per mille. */
  private static Homography map(double tilt) {
    double w = picture.getWidth();
    double turn = Math.toRadians(1.3);
    double c = 1.006 * Math.cos(turn);
    double s = 1.006 * Math.sin(turn);
    return new Homography(c, -s, 14, s, c, -9, tilt / w, -0.5 * tilt / w);
  }

  /** Differential keystone: lengths differ by 0.4 % between the two sides of the photograph. */
  @Test
  void tiltOfFourPerMille_registersWithin3Um() throws IOException {
    Homography h = map(0.004);
    ComparisonResult r = compared(resampled(h));
    double worst = worstUm(r, (x, y) -> new double[] {h.x(x, y), h.y(x, y)});
    assertTrue(worst < 3, "worst of 25 places: " + worst + " um");
    // A map without perspective cannot be exact: the photographs were tilted indeed.
    Homography flat = map(0);
    double untilted = worstUm(r, (x, y) -> new double[] {flat.x(x, y), flat.y(x, y)});
    assertTrue(untilted > 1.5 * worst, "without tilt: " + untilted + " um");
  }

  /**
   * Outside check: OpenCV's estimator of affine maps by enhanced correlation (findTransformECC),
   * started three pixels off, and the map that the test applied.
   */
  @Test
  void turnedAndScaled_agreesWithOpenCvsOwnEstimator() throws IOException {
    Homography h = map(0);
    BufferedImage second = resampled(h);
    ComparisonResult r = compared(second);
    double own = worstUm(r, (x, y) -> new double[] {h.x(x, y), h.y(x, y)});
    assertTrue(own < 0.5, "against the map that was applied: " + own + " um");
    // Counted from pixel centres: template (second) to input (first).
    Mat start = new Mat(2, 3, CvType.CV_32FC1);
    start.put(0, 0, h.a(), h.b(), h.c() + 3, h.d(), h.e(), h.f() - 3);
    Video.findTransformECC(
        grey(second),
        grey(picture),
        start,
        Video.MOTION_AFFINE,
        new TermCriteria(TermCriteria.COUNT + TermCriteria.EPS, 100, 1e-6),
        new Mat(),
        5);
    float[] m = new float[6];
    start.get(0, 0, m);
    double outside =
        worstUm(
            r,
            (x, y) ->
                new double[] {
                  m[0] * (x - 0.5) + m[1] * (y - 0.5) + m[2] + 0.5,
                  m[3] * (x - 0.5) + m[4] * (y - 0.5) + m[5] + 0.5
                });
    assertTrue(outside < 0.5, "against OpenCV: " + outside + " um");
  }

  private static Mat grey(BufferedImage in) {
    float[] v = new float[in.getWidth() * in.getHeight()];
    for (int i = 0; i < v.length; i++) {
      int p = in.getRGB(i % in.getWidth(), i / in.getWidth());
      v[i] = ((p & 255) + (p >> 8 & 255) + (p >> 16 & 255)) / 3f;
    }
    Mat out = new Mat(in.getHeight(), in.getWidth(), CvType.CV_32FC1);
    out.put(0, 0, v);
    return out;
  }
}
