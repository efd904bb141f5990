package org.diesurvey.synthetic;

import java.util.ArrayList;
import java.util.List;

/** Residue, dust, scratches and stains, in the photo's frame. */
final class Damage {
  /** A spot: ellipse with a wavy rim. {@code coverage} 0..1; hides the surface above one half. */
  private record Spot(
      double x,
      double y,
      double a,
      double b,
      double angle,
      double coverage,
      double soft,
      double wavy,
      double phase,
      Reflectance.Rgb colour) {}

  private record Scratch(
      double x,
      double y,
      double dx,
      double dy,
      double length,
      double width,
      double bend,
      double level) {}

  private final List<Spot> spots = new ArrayList<>();
  private final List<Scratch> scratches = new ArrayList<>();

  static Damage draw(Dice dice, int w, int h, double umPerPx, double severity) {
    Damage damage = new Damage();
    if (severity <= 0) {
      return damage;
    }
    double scale = Math.sqrt((double) w * h) / 3000;
    // Dirt per area is much the same for small and large photos.
    double share = Math.max(0.08, (double) w * h / 12e6) * severity;
    int islands = dice.chance(0.4) ? 0 : (int) StrictMath.ceil(dice.uniform(0, 8) * share);
    for (int i = 0; i < islands; i++) {
      double size = dice.logUniform(15, 130) * scale;
      damage.spots.add(
          new Spot(
              dice.uniform(0, w),
              dice.uniform(0, h),
              size,
              size * dice.uniform(0.5, 1),
              dice.uniform(0, Math.PI),
              1,
              dice.uniform(0.05, 0.2),
              dice.uniform(0.1, 0.4),
              dice.uniform(0, 6),
              new Reflectance.Rgb(0.95, dice.uniform(0.84, 0.94), dice.uniform(0.6, 0.9))));
    }
    int stains = dice.chance(0.5) ? 0 : (int) StrictMath.ceil(dice.uniform(0, 6) * share);
    for (int i = 0; i < stains; i++) {
      double size = dice.logUniform(30, 400) * scale;
      double grey = dice.uniform(0.1, 0.6);
      damage.spots.add(
          new Spot(
              dice.uniform(0, w),
              dice.uniform(0, h),
              size,
              size * dice.uniform(0.4, 1),
              dice.uniform(0, Math.PI),
              dice.uniform(0.05, 0.3),
              0.5,
              0.3,
              dice.uniform(0, 6),
              new Reflectance.Rgb(grey * 1.1, grey, grey * dice.uniform(0.6, 1.1))));
    }
    int dust = (int) (dice.logUniform(15, 450) * share);
    double darkShare = dice.uniform(0.5, 1);
    for (int i = 0; i < dust; i++) {
      double size = dice.logUniform(1.5, 22) * Math.max(0.6, scale);
      double grey = dice.chance(darkShare) ? dice.uniform(0.02, 0.2) : dice.uniform(0.5, 0.9);
      damage.spots.add(
          new Spot(
              dice.uniform(0, w),
              dice.uniform(0, h),
              size,
              Math.max(1.2, size * dice.uniform(0.2, 1)),
              dice.uniform(0, Math.PI),
              dice.uniform(0.35, 1),
              dice.uniform(0.15, 0.5),
              dice.uniform(0, 0.15),
              dice.uniform(0, 6),
              new Reflectance.Rgb(grey, grey, grey)));
    }
    int lines = (int) StrictMath.round(dice.uniform(0, 16) * share);
    for (int i = 0; i < lines; i++) {
      double angle = dice.uniform(0, 2 * Math.PI);
      damage.scratches.add(
          new Scratch(
              dice.uniform(0, w),
              dice.uniform(0, h),
              StrictMath.cos(angle),
              StrictMath.sin(angle),
              dice.logUniform(60, 1200) * scale,
              dice.uniform(0.6, 2.2),
              dice.normal() * 1e-4 / scale,
              dice.signed(dice.uniform(0.04, 0.3))));
    }
    return damage;
  }

  /** Applies all; where the surface is hidden, {@code hidden} (may be null) becomes 1. */
  void apply(float[] photo, byte[] hidden, int w, int h, int k) {
    for (Spot s : spots) {
      spot(s, photo, hidden, w, h, k);
    }
    for (Scratch s : scratches) {
      scratch(s, photo, hidden, w, h);
    }
  }

  private static void spot(Spot s, float[] photo, byte[] hidden, int w, int h, int k) {
    double reach = Math.max(s.a(), s.b()) * 1.6 + 3;
    double c = StrictMath.cos(s.angle());
    double n = StrictMath.sin(s.angle());
    float colour = (float) s.colour().channel(k);
    int top = Math.max(0, (int) (s.y() - reach));
    int bottom = Math.min(h - 1, (int) (s.y() + reach));
    int left = Math.max(0, (int) (s.x() - reach));
    int right = Math.min(w - 1, (int) (s.x() + reach));
    double soft = Math.max(s.soft(), 1 / Math.max(2, s.b()));
    for (int y = top; y <= bottom; y++) {
      for (int x = left; x <= right; x++) {
        double dx = x + 0.5 - s.x();
        double dy = y + 0.5 - s.y();
        double u = (dx * c + dy * n) / s.a();
        double v = (-dx * n + dy * c) / s.b();
        double r = Math.sqrt(u * u + v * v);
        if (r > 1.6) {
          continue;
        }
        if (s.wavy() > 0 && r > 0.3) {
          double t = StrictMath.atan2(v, u);
          r *=
              1
                  + s.wavy()
                      * (0.6 * StrictMath.sin(3 * t + s.phase())
                          + 0.4 * StrictMath.sin(7 * t + 2 * s.phase()));
        }
        double in = Math.max(0, Math.min(1, (1 - r) / soft + 0.5));
        if (in <= 0) {
          continue;
        }
        int i = y * w + x;
        float cover = (float) (in * s.coverage());
        photo[i] += cover * (colour - photo[i]);
        if (hidden != null && cover > 0.5f) {
          hidden[i] = 1;
        }
      }
    }
  }

  private static void scratch(Scratch s, float[] photo, byte[] hidden, int w, int h) {
    double dx = s.dx();
    double dy = s.dy();
    double x = s.x();
    double y = s.y();
    int reach = (int) StrictMath.ceil(s.width()) + 1;
    for (double at = 0; at < s.length(); at += 1) {
      double fade = Math.min(1, Math.min(at, s.length() - at) / (0.2 * s.length() + 1));
      // One pixel step, spread across the scratch.
      boolean steep = Math.abs(dy) > Math.abs(dx);
      for (int o = -reach; o <= reach; o++) {
        int px = (int) (steep ? x + o : x);
        int py = (int) (steep ? y : y + o);
        if (px < 0 || py < 0 || px >= w || py >= h) {
          continue;
        }
        double distance = steep ? Math.abs(px + 0.5 - x) : Math.abs(py + 0.5 - y);
        double cover = Math.max(0, Math.min(1, s.width() / 2 + 0.5 - distance)) * fade;
        if (cover <= 0) {
          continue;
        }
        int i = py * w + px;
        photo[i] =
            (float) Math.max(0, photo[i] + s.level() * cover * (s.level() > 0 ? 1 : photo[i] * 2));
        if (hidden != null && cover * Math.abs(s.level()) > 0.08) {
          hidden[i] = 1;
        }
      }
      double turn = s.bend();
      double ndx = dx - turn * dy;
      dy = dy + turn * dx;
      dx = ndx;
      double norm = Math.max(Math.abs(dx), Math.abs(dy));
      x += dx / norm;
      y += dy / norm;
    }
  }
}
