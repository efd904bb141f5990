package org.diesurvey.inspection;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.diesurvey.photo.PhotoInfo;
import org.diesurvey.raster.Axis;
import org.diesurvey.raster.PixelPoint;
import org.diesurvey.raster.PixelRect;

/** An inspection as a tree of JSON; the order of members is the order of the statements. */
final class InspectionTree {
  private final Inspection in;
  private final ObjectNode root = new ObjectNode(JsonNodeFactory.withExactBigDecimals(true));

  InspectionTree(Inspection in) {
    this.in = in;
  }

  ObjectNode tree(Optional<Instant> created) {
    root.put("format", Inspection.FORMAT);
    root.put("format_version", Inspection.FORMAT_VERSION);
    created.ifPresent(t -> root.put("created", t.truncatedTo(ChronoUnit.SECONDS).toString()));
    photo();
    in.subject()
        .scale()
        .ifPresent(
            c -> {
              ObjectNode scale = root.putObject("scale");
              digits(scale, "um_per_px", c.umPerPx().value(), 9);
              digits(scale, "standard_uncertainty_um_per_px", c.umPerPx().standardUncertainty(), 3);
              scale.put("origin", word(c.origin()));
              scale.put("note", c.note());
            });
    die();
    focus();
    ObjectNode levels = root.putObject("levels");
    levels.put("bits_in_use", in.subject().levels().bits());
    decimals(levels, "low_share", in.subject().levels().low(), 4);
    decimals(levels, "high_share", in.subject().levels().high(), 4);
    levels.put("stretched", in.subject().levels().stretched());
    ObjectNode exposure = root.putObject("exposure");
    decimals(exposure, "black_share", in.capture().exposure().blackShare(), 6);
    decimals(exposure, "white_share", in.capture().exposure().whiteShare(), 6);
    ObjectNode light = root.putObject("light");
    decimals(light, "fall_off_share", in.capture().light().share(), 4);
    light.put("judged", in.capture().light().judged());
    stitching();
    ObjectNode compression = root.putObject("compression");
    in.artefacts()
        .compression()
        .jpeg()
        .ifPresent(
            j -> {
              compression.put("jpeg_quality", j.quality());
              compression.put("jpeg_common_table", j.commonTable());
            });
    decimals(compression, "grid_ratio", in.artefacts().compression().gridRatio(), 3);
    dirt();
    noise();
    ObjectNode resolution = root.putObject("resolution");
    decimals(resolution, "finest_period_px", in.detail().resolution().finestPeriodPx(), 2);
    in.finestPeriodUm().ifPresent(v -> digits(resolution, "finest_period_um", v, 3));
    resolution.put("at_sampling_limit", in.detail().resolution().atSamplingLimit());
    in.detail().optics().ifPresent(this::optics);
    in.detail().node().ifPresent(this::node);
    ArrayNode findings = root.putArray("findings");
    for (Finding f : in.findings()) {
      findings
          .addObject()
          .put("id", f.id())
          .put("sentence", f.sentence())
          .put("remedy", f.remedy());
    }
    return root;
  }

  private void photo() {
    PhotoInfo p = in.subject().photo();
    ObjectNode photo = root.putObject("photo");
    photo.put("file_name", p.fileName());
    photo.put("sha256", p.sha256());
    photo.put("file_bytes", p.fileBytes());
    photo.put("format", p.format());
    photo.put("width_px", p.widthPx());
    photo.put("height_px", p.heightPx());
    photo.put("bits_per_sample", p.bitsPerSample());
    photo.put("samples_per_pixel", p.samplesPerPixel());
    p.taggedScale()
        .ifPresent(
            t -> {
              ObjectNode tag = photo.putObject("tagged_scale");
              digits(tag, "um_per_px", t.umPerPx(), 9);
              tag.put("origin", t.origin());
            });
  }

  private void die() {
    ObjectNode die = root.putObject("die");
    die.put("edge_found", in.subject().die().edgeFound());
    ArrayNode corners = die.putArray("corners_px");
    for (PixelPoint p : in.subject().die().cornersPx()) {
      corners.addArray().add(decimal(p.x(), 2)).add(decimal(p.y(), 2));
    }
    decimals(die, "rotation_deg", in.subject().die().rotationDeg(), 4);
    decimals(die, "width_px", in.subject().die().widthPx(), 2);
    decimals(die, "height_px", in.subject().die().heightPx(), 2);
  }

  private void focus() {
    FocusMap f = in.capture().focus();
    ObjectNode focus = root.putObject("focus");
    focus.put("columns", f.columns());
    focus.put("rows", f.rows());
    ArrayNode blur = focus.putArray("blur_px");
    for (OptionalDouble b : f.blurPx()) {
      if (b.isPresent()) {
        blur.add(decimal(b.getAsDouble(), 2));
      } else {
        blur.addNull();
      }
    }
    f.medianPx().ifPresent(m -> decimals(focus, "median_px", m, 2));
    f.tilt()
        .ifPresent(
            t -> {
              ObjectNode tilt = focus.putObject("tilt");
              tilt.put("soft_side", word(t.softSide()));
              decimals(tilt, "soft_px", t.softPx(), 2);
              decimals(tilt, "sharp_px", t.sharpPx(), 2);
            });
    ArrayNode corners = focus.putArray("soft_corners");
    for (FocusMap.SoftCorner c : f.softCorners()) {
      ObjectNode corner = corners.addObject();
      corner.put("corner", word(c.corner()));
      decimals(corner, "soft_px", c.softPx(), 2);
      decimals(corner, "middle_px", c.middlePx(), 2);
    }
  }

  private void stitching() {
    ObjectNode stitching = root.putObject("stitching");
    stitching.put("seams_judged", in.artefacts().stitching().judged());
    ArrayNode seams = stitching.putArray("seams");
    for (Seam s : in.artefacts().stitching().seams()) {
      ObjectNode seam = seams.addObject();
      seam.put("along", s.along() == Axis.Y ? "column" : "row");
      seam.put("place_px", s.placePx());
      decimals(seam, "step_share", s.stepShare(), 4);
      decimals(seam, "length_share", s.lengthShare(), 3);
    }
    ArrayNode repeats = stitching.putArray("repeated_strips");
    for (RepeatedStrip r : in.artefacts().stitching().repeats()) {
      ObjectNode strip = repeats.addObject();
      strip.put("along", r.along() == Axis.Y ? "column" : "row");
      strip.put("place_px", r.placePx());
      strip.put("width_px", r.widthPx());
      decimals(strip, "likeness", r.likeness(), 3);
    }
  }

  private void dirt() {
    ObjectNode dirt = root.putObject("dirt");
    decimals(dirt, "dark_share", in.artefacts().dirt().darkShare(), 6);
    decimals(dirt, "bright_share", in.artefacts().dirt().brightShare(), 6);
    dirt.put("spot_count", in.artefacts().dirt().spotCount());
    ArrayNode spots = dirt.putArray("largest_spots");
    for (Contamination.Spot s : in.artefacts().dirt().spots()) {
      PixelRect b = s.boundsPx();
      ObjectNode spot = spots.addObject();
      spot.put("kind", s.bright() ? "bright" : "dark");
      spot.putArray("bounds_px").add(b.x()).add(b.y()).add(b.width()).add(b.height());
      spot.put("area_px", s.areaPx());
    }
  }

  private void noise() {
    ObjectNode noise = root.putObject("noise");
    decimals(noise, "sigma", in.capture().noise().sigma(), 6);
    ArrayNode levels = noise.putArray("at_grey");
    for (Noise.AtLevel l : in.capture().noise().levels()) {
      ObjectNode level = levels.addObject();
      decimals(level, "grey", l.grey(), 4);
      decimals(level, "sigma", l.sigma(), 6);
    }
  }

  private void optics(Optics o) {
    ObjectNode optics = root.putObject("optics");
    digits(optics, "aperture", o.aperture(), 4);
    digits(optics, "wavelength_nm", o.wavelengthNm(), 6);
    digits(optics, "rayleigh_um", o.rayleighUm(), 4);
    digits(optics, "abbe_um", o.abbeUm(), 4);
    digits(optics, "depth_of_field_um", o.depthOfFieldUm(), 4);
    digits(optics, "refractive_index_assumed", o.index(), 4);
    digits(optics, "coarsest_pitch_um_per_px", o.coarsestPitchUm(), 4);
    digits(optics, "practical_pitch_um_per_px", o.practicalPitchUm(), 4);
    o.sampling().ifPresent(s -> optics.put("sampling", word(s)));
  }

  private void node(NodeVerdict v) {
    ObjectNode node = root.putObject("node");
    digits(node, "node_nm", v.nodeNm(), 6);
    if (v.apertureAssumed() > 0) {
      digits(node, "aperture_assumed", v.apertureAssumed(), 4);
    }
    ArrayNode structures = node.putArray("structures");
    for (NodeVerdict.Structure s : v.structures()) {
      ObjectNode structure = structures.addObject();
      structure.put("structure", word(s.kind()));
      digits(structure, "size_um", s.sizeUm(), 4);
      structure.put("size_source", s.source());
      structure.put("limited_by", word(s.limit()));
      digits(structure, "limit_um", s.limitUm(), 4);
      structure.put("visibility", word(s.visibility()));
    }
  }

  private static String word(Enum<?> value) {
    return value.name().toLowerCase(Locale.ROOT);
  }

  private static void decimals(ObjectNode to, String name, double value, int decimals) {
    to.put(name, decimal(value, decimals));
  }

  private static BigDecimal decimal(double value, int decimals) {
    return plain(BigDecimal.valueOf(value).setScale(decimals, RoundingMode.HALF_EVEN));
  }

  private static void digits(ObjectNode to, String name, double value, int digits) {
    to.put(
        name,
        plain(BigDecimal.valueOf(value).round(new MathContext(digits, RoundingMode.HALF_EVEN))));
  }

  private static BigDecimal plain(BigDecimal value) {
    BigDecimal stripped = value.stripTrailingZeros();
    return stripped.scale() < 0 ? stripped.setScale(0) : stripped;
  }
}
