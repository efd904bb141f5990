package org.diesurvey.synthetic;

/**
 * Brightness of the layers under the microscope, 0..1 of full scale, as red, green and blue.
 *
 * @param field field oxide or bare well
 * @param diffusion change from field to diffusion
 * @param poly change where polysilicon is left
 * @param contact change at contacts
 * @param well change for a well weight of 1
 * @param metal brightness of metal left
 * @param edge darkening at steps, share of full scale
 * @param fineEdge share of that darkening which steps finer than a pixel keep
 */
record Reflectance(
    Rgb field,
    Rgb diffusion,
    Rgb poly,
    Rgb contact,
    Rgb well,
    Rgb metal,
    double edge,
    double fineEdge) {

  /** Three channel values. */
  record Rgb(double red, double green, double blue) {
    double channel(int k) {
      return k == 0 ? red : k == 1 ? green : blue;
    }

    Rgb times(double s) {
      return new Rgb(red * s, green * s, blue * s);
    }
  }

  /**
   * The same surface as another preparation and lamp show it: tint of the light, and how much the
   * edges, wells, polysilicon and contacts stand out.
   */
  Reflectance tinted(Dice dice) {
    Rgb light =
        new Rgb(dice.uniform(0.85, 1.15), dice.uniform(0.93, 1.07), dice.uniform(0.85, 1.15));
    double contrast = dice.uniform(0.8, 1.2);
    return new Reflectance(
        lit(field, light, 1),
        lit(diffusion, light, contrast),
        lit(poly, light, dice.uniform(0.6, 1.3)),
        lit(contact, light, dice.uniform(0.6, 1.3)),
        lit(well, light, dice.uniform(0.6, 1.3)),
        lit(metal, light, 1),
        edge * dice.uniform(0.7, 1.3),
        fineEdge);
  }

  private static Rgb lit(Rgb surface, Rgb light, double s) {
    return new Rgb(
        surface.red() * light.red() * s,
        surface.green() * light.green() * s,
        surface.blue() * light.blue() * s);
  }

  private static Rgb tint(Dice dice, double level, double colour) {
    double warm = dice.uniform(-colour, colour);
    double green = dice.uniform(-colour, colour) * 0.5;
    return new Rgb(level * (1 + warm), level * (1 + green), level * (1 - warm));
  }

  /** Bluish field, cream diffusion: easy on the eye, for the demo. */
  private static final Reflectance SHOWPIECE =
      new Reflectance(
          new Rgb(0.25, 0.29, 0.36),
          new Rgb(0.24, 0.19, 0.07),
          new Rgb(-0.05, -0.04, -0.02),
          new Rgb(0.04, 0.04, 0.04),
          new Rgb(-0.03, -0.025, -0.01),
          new Rgb(0.95, 0.88, 0.7),
          0.1,
          0.5);

  static Reflectance draw(Dice dice, boolean showpiece) {
    if (showpiece) {
      return SHOWPIECE;
    }
    double level = dice.uniform(0.14, 0.6);
    Rgb field = tint(dice, level, dice.chance(0.3) ? 0.45 : 0.2);
    double contrast = Math.min(0.35, level * dice.logUniform(0.18, 1.15));
    boolean inverted = dice.chance(0.22);
    double swing = inverted ? -Math.min(contrast, level * 0.6) : contrast;
    Rgb diffusion = tint(dice, swing, 0.45);
    double polyLeft = dice.chance(0.35) ? 0 : dice.logUniform(0.05, 1);
    Rgb poly = tint(dice, dice.signed(dice.uniform(0.03, 0.22)) * polyLeft, 0.3);
    double contactLeft = dice.chance(0.3) ? 0 : dice.uniform(0.05, 0.5);
    Rgb contact = tint(dice, dice.signed(0.3) * contactLeft, 0.1);
    Rgb well =
        tint(dice, dice.signed(dice.chance(0.3) ? 0.005 : dice.logUniform(0.008, 0.09)), 0.2);
    double edge = dice.chance(0.15) ? 0 : dice.uniform(0.03, 0.22);
    if (dice.chance(0.1)) {
      edge = -edge * 0.6;
    }
    double fineEdge = dice.uniform(0, 1);
    Rgb metal = new Rgb(0.95, dice.uniform(0.8, 0.95), dice.uniform(0.3, 0.9));
    return new Reflectance(
        field,
        diffusion,
        poly,
        contact,
        well,
        metal.times(dice.uniform(0.7, 1) * Math.min(1, level * 2.5)),
        edge,
        fineEdge);
  }
}
