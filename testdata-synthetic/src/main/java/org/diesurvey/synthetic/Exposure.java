package org.diesurvey.synthetic;

/**
 * Takes the photo: reflectance, optics, rotation, light, dirt, camera; one colour channel at a
 * time.
 */
final class Exposure {
  private static final float[] NONE = new float[0];

  /** Share of photos with the rim of another die. */
  private static final double NEIGHBOURS = 0.08;

  private final Canvas canvas;
  private final Framing framing;
  private final Reflectance reflectance;
  private final Optics optics;
  private final Dice dice;
  private final Background background;
  private final Light light;
  private final Damage damage;
  private final Stitching stitching;
  private final NeighbourDie neighbour;

  Exposure(
      Canvas canvas,
      Framing framing,
      Reflectance reflectance,
      Optics optics,
      Dice dice,
      double severity) {
    this.canvas = canvas;
    this.framing = framing;
    this.reflectance = reflectance;
    this.optics = optics;
    this.dice = dice;
    int w = framing.widthPx();
    int h = framing.heightPx();
    this.background = Background.draw(dice.child("background"), w, h);
    this.light = new Light(optics, dice.child("light"), w, h);
    this.stitching = new Stitching(optics, dice.child("stitching"), w, h);
    Dice beside = dice.child("neighbour");
    this.neighbour = beside.chance(NEIGHBOURS) ? new NeighbourDie(beside) : null;
    this.damage = Damage.draw(dice.child("damage"), w, h, framing.umPerPx(), severity);
  }

  DrawnDie take(DieTruth truth) {
    int w = framing.widthPx();
    int h = framing.heightPx();
    byte[] rgb = new byte[w * h * 3];
    byte[] hidden = new byte[w * h];
    float[] surface = new float[canvas.widthPx * canvas.heightPx];
    float[] scratch = new float[Math.max(surface.length, w * h)];
    float[] photo = new float[w * h];
    byte[] labels = Resampling.labels(canvas, framing.umToPx(), w, h);
    if (canvas.has(Layer.METAL)) {
      Resampling.covered(canvas, Layer.METAL, framing.umToPx(), hidden, w, h);
    }
    Camera camera = new Camera(optics, dice.child("camera"));
    for (int k = 0; k < 3; k++) {
      compose(surface, k);
      blur(surface, scratch, k);
      Resampling.cubic(
          surface, canvas, framing.umToPx(), stitching, photo, w, h, background.level(k));
      background.texture(photo, labels, w, h, k);
      if (neighbour != null) {
        neighbour.paint(photo, labels, framing, reflectance, k);
      }
      light.apply(photo, w, h, k);
      damage.apply(photo, k == 0 ? hidden : null, w, h, k);
      stitching.gains(photo, w, h);
      camera.develop(photo, scratch, rgb, w, h, k);
    }
    byte[] final8 =
        optics.jpegQuality() > 0 ? JpegTrip.through(rgb, w, h, optics.jpegQuality()) : rgb;
    return new DrawnDie(w, h, final8, labels, hidden, truth);
  }

  /** Adds up what the layers reflect; steps in the diffusion are darker. */
  private void compose(float[] out, int k) {
    float[] diffusion = canvas.plane(Layer.DIFFUSION);
    float[] poly = canvas.has(Layer.POLY) ? canvas.plane(Layer.POLY) : NONE;
    float[] contact = canvas.has(Layer.CONTACT) ? canvas.plane(Layer.CONTACT) : NONE;
    float[] well = canvas.plane(Layer.WELL);
    float[] metal = canvas.has(Layer.METAL) ? canvas.plane(Layer.METAL) : null;
    float bright = (float) reflectance.metal().channel(k);
    byte[] labels = canvas.labels();
    float field = (float) reflectance.field().channel(k);
    float d = (float) reflectance.diffusion().channel(k);
    float p = (float) reflectance.poly().channel(k);
    float c = (float) reflectance.contact().channel(k);
    float v = (float) reflectance.well().channel(k);
    float edge = (float) (reflectance.edge() * 0.5 * reflectance.field().channel(k) / 0.35);
    edge *= (float) (canvas.pxPerUm * framing.umPerPx());
    float fine = (float) (4 * edge * reflectance.fineEdge());
    float off = (float) background.level(k);
    int w = canvas.widthPx;
    int h = canvas.heightPx;
    for (int y = 0; y < h; y++) {
      int up = Math.max(0, y - 1) * w;
      int down = Math.min(h - 1, y + 1) * w;
      int at = y * w;
      for (int x = 0; x < w; x++) {
        int i = at + x;
        if (labels[i] == SurfaceLabel.OFF_DIE) {
          out[i] = off;
          continue;
        }
        float cover = Math.min(1, diffusion[i]);
        float stepX =
            Math.min(1, diffusion[at + Math.min(w - 1, x + 1)])
                - Math.min(1, diffusion[at + Math.max(0, x - 1)]);
        float stepY = Math.min(1, diffusion[down + x]) - Math.min(1, diffusion[up + x]);
        float value =
            field
                + cover * d
                + (poly == NONE ? 0 : Math.min(1, poly[i]) * p)
                + (contact == NONE ? 0 : Math.min(1, contact[i]) * c)
                + well[i] * v
                - edge * (Math.abs(stepX) + Math.abs(stepY));
        // A part-covered pixel holds an edge that the difference of its neighbours may miss.
        value -= fine * cover * (1 - cover);
        if (metal != null) {
          value += Math.min(1, metal[i]) * (bright - value);
        }
        out[i] = Math.max(0, value);
      }
    }
  }

  private void blur(float[] surface, float[] scratch, int k) {
    // A finer canvas lacks the rest of the photo's pixel: variance 1/12 px2, less its own share.
    double over = canvas.pxPerUm * framing.umPerPx();
    double aperture = (over * over - 1) / 12;
    double spot = optics.blurUm(k) * canvas.pxPerUm;
    double sigma = Math.sqrt(spot * spot + Math.max(0, aperture));
    int w = canvas.widthPx;
    int h = canvas.heightPx;
    if (optics.defocusTilt() <= 0) {
      Blur.gaussian(surface, scratch, w, h, sigma);
      return;
    }
    Blur.gaussian(surface, scratch, w, h, sigma);
    float[] far = surface.clone();
    Blur.gaussian(far, scratch, w, h, 0.3 + 0.8 * optics.defocusTilt());
    double angle = dice.child("tilt").uniform(0, 2 * Math.PI);
    double cx = StrictMath.cos(angle);
    double cy = StrictMath.sin(angle);
    for (int y = 0; y < h; y++) {
      for (int x = 0; x < w; x++) {
        double t = 0.5 + cx * ((double) x / w - 0.5) + cy * ((double) y / h - 0.5);
        float share = (float) Math.max(0, Math.min(1, t));
        int i = y * w + x;
        surface[i] += share * (far[i] - surface[i]);
      }
    }
  }
}
