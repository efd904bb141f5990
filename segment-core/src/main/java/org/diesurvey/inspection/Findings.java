package org.diesurvey.inspection;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.diesurvey.calibration.ScaleOrigin;
import org.diesurvey.inspection.NodeVerdict.Kind;
import org.diesurvey.inspection.NodeVerdict.Structure;
import org.diesurvey.inspection.NodeVerdict.Visibility;
import org.diesurvey.raster.Axis;

/** What of an inspection may spoil a survey, with what to do about it. */
final class Findings {
  /** Median blur from which the whole picture is called soft, px. */
  private static final double SOFT_PX = 2.2;

  /** Share of clipped pixels that is worth a word: about a bond pad's area of a small die. */
  private static final double CLIPPED_SHARE = 0.005;

  /** Fall-off from which a block at the rim looks as another material, as a share. */
  private static final double UNEVEN_SHARE = 0.3;

  /** JPEG quality below which textures of a few pixels are coded away. */
  private static final int LOW_QUALITY = 70;

  /** Grid steps over others that the eye sees. */
  private static final double SEEN_GRID = 1.6;

  private static final double DIRTY_SHARE = 0.01;

  /** Noise that hides the faint lattices of memories, 0 to 1: 3 % of the largest value. */
  private static final double NOISY = 0.03;

  private final Inspection in;
  private final List<Finding> out = new ArrayList<>();

  private Findings(Inspection in) {
    this.in = in;
  }

  static List<Finding> of(Inspection in) {
    Findings f = new Findings(in);
    f.scale();
    f.reading();
    f.die();
    f.focus();
    f.levels();
    f.exposure();
    f.light();
    f.stitching();
    f.compression();
    f.dirtAndNoise();
    f.sampling();
    f.node();
    return List.copyOf(f.out);
  }

  private void add(String id, String remedy, String sentence, Object... values) {
    out.add(new Finding(id, String.format(Locale.ROOT, sentence, values), remedy));
  }

  private void scale() {
    in.subject()
        .scale()
        .filter(c -> c.origin() == ScaleOrigin.PHOTO_METADATA)
        .ifPresent(
            c ->
                add(
                    "scale-from-metadata",
                    "State the pixel pitch measured with a stage micrometer.",
                    "The scale was taken from the file's own tag (%s), which cameras and editors"
                        + " often set without meaning.",
                    c.note()));
  }

  private void reading() {
    for (String done : in.subject().reading().conversions()) {
      add(
          "samples-converted",
          "Export the photograph as 8- or 16-bit grey or RGB.",
          "%s, so its levels are not those of the camera.",
          done);
    }
  }

  private void die() {
    if (!in.subject().die().edgeFound()) {
      add(
          "no-die-edge",
          "Photograph the whole die with some background on all four sides to have shares of the"
              + " die.",
          "No die edge was found, so the whole photograph was inspected as a crop or single"
              + " field.");
    }
  }

  private void focus() {
    in.capture()
        .focus()
        .tilt()
        .ifPresent(
            t ->
                add(
                    "focus-tilted",
                    "Level the die under the objective, or focus field by field, and photograph"
                        + " again.",
                    "The %s side is out of focus: edges are %.1f px soft there and %.1f px at the"
                        + " opposite side, as if the die lay tilted.",
                    t.softSide().name().toLowerCase(Locale.ROOT),
                    t.softPx(),
                    t.sharpPx()));
    if (!in.capture().focus().softCorners().isEmpty()) {
      add(
          "focus-corners",
          "Stop down or use the middle of the objective's field only, or stitch smaller fields.",
          "Out of focus against the middle: %s.",
          in.capture().focus().softCorners().stream()
              .map(
                  c ->
                      String.format(
                          Locale.ROOT,
                          "%s corner (%.1f px soft, middle %.1f px)",
                          c.corner().name().toLowerCase(Locale.ROOT).replace('_', ' '),
                          c.softPx(),
                          c.middlePx()))
              .collect(Collectors.joining(", ")));
    }
    if (in.capture().focus().medianPx().orElse(0) >= SOFT_PX) {
      add(
          "soft-photo",
          "Focus again; if the optics give no more, a picture of half the size holds the same.",
          "Half of the edges are %.1f px soft or more: the pixels are much finer than the detail.",
          in.capture().focus().medianPx().getAsDouble());
    }
  }

  private void levels() {
    if (in.subject().levels().stretched()) {
      add(
          "few-levels",
          "Expose so that the brightest part of the die lies just below white, and set the camera's"
              + " black level so that dark parts lie just above black.",
          "The picture uses the levels from %.0f to %.0f %% of its %d bits only; they are spread"
              + " over the scale for a survey, and their noise and steps with them.",
          100 * in.subject().levels().low(),
          100 * in.subject().levels().high(),
          in.subject().levels().bits());
    }
  }

  private void exposure() {
    if (in.capture().exposure().whiteShare() >= CLIPPED_SHARE) {
      add(
          "clipped-bright",
          "Expose shorter, so that the brightest parts stay below white.",
          "%.1f %% of the %s is clipped to white, and what is brighter is lost.",
          100 * in.capture().exposure().whiteShare(),
          area());
    }
    if (in.capture().exposure().blackShare() >= CLIPPED_SHARE) {
      add(
          "clipped-dark",
          "Expose longer, or lower the black level of the camera.",
          "%.1f %% of the %s is clipped to black, and what is darker is lost.",
          100 * in.capture().exposure().blackShare(),
          area());
    }
  }

  private String area() {
    return in.subject().die().edgeFound() ? "die" : "photograph";
  }

  private void light() {
    if (in.capture().light().judged() && in.capture().light().share() >= UNEVEN_SHARE) {
      add(
          "uneven-light",
          "Centre the lamp and open the field stop, or photograph an empty mirror as a reference"
              + " for the light.",
          "The light falls off by %.0f %% over the die.",
          100 * in.capture().light().share());
    }
  }

  private void stitching() {
    List<Seam> seams = in.artefacts().stitching().seams();
    if (!seams.isEmpty()) {
      double most = seams.stream().mapToDouble(Seam::stepShare).max().orElse(0);
      add(
          "stitching-seams",
          "Even out the fields' brightness before stitching, or lock exposure and white balance.",
          "%s with a step of grey of up to %.1f %%: %s.",
          seams.size() == 1 ? "A straight seam" : seams.size() + " straight seams",
          100 * most,
          places(seams));
    }
    List<RepeatedStrip> repeats = in.artefacts().stitching().repeats();
    if (!repeats.isEmpty()) {
      add(
          "repeated-strip",
          "Stitch again with the overlap taken out; areas and counts across the place are too"
              + " large.",
          "The picture shows a place twice: %s.",
          repeats.stream()
              .map(
                  r ->
                      String.format(
                          Locale.ROOT,
                          "%d px from %s %d on repeat what is before them",
                          r.widthPx(),
                          r.along() == Axis.Y ? "column" : "row",
                          r.placePx()))
              .collect(Collectors.joining("; ")));
    }
  }

  private static String places(List<Seam> seams) {
    String columns = places(seams, Axis.Y);
    String rows = places(seams, Axis.X);
    return columns + (columns.isEmpty() || rows.isEmpty() ? "" : "; ") + rows;
  }

  private static String places(List<Seam> seams, Axis along) {
    List<String> at =
        seams.stream()
            .filter(s -> s.along() == along)
            .map(s -> Integer.toString(s.placePx()))
            .toList();
    return at.isEmpty() ? "" : (along == Axis.Y ? "columns " : "rows ") + String.join(", ", at);
  }

  private void compression() {
    boolean low =
        in.artefacts().compression().jpeg().map(j -> j.quality() < LOW_QUALITY).orElse(false);
    // The grid alone is only told where the file does not say how it was compressed.
    boolean grid =
        in.artefacts().compression().jpeg().isEmpty()
            && in.artefacts().compression().gridRatio() >= SEEN_GRID;
    if (low) {
      add(
          "jpeg-damage",
          "Save the original again as PNG or TIFF, or as JPEG of quality 90 or more.",
          "The JPEG quality is %d of 100: fine texture is coded away and a grid of 8 px is left.",
          in.artefacts().compression().jpeg().get().quality());
    } else if (grid) {
      add(
          "jpeg-damage",
          "Use the camera's original without JPEG in between.",
          "The file is no JPEG but shows a grid of 8 px (steps on it are %.1f times the others), so"
              + " it was a strongly compressed one once.",
          in.artefacts().compression().gridRatio());
    }
  }

  private void dirtAndNoise() {
    if (in.artefacts().dirt().share() >= DIRTY_SHARE) {
      add(
          "dirt",
          "Clean the die (a licensed laboratory's usual solvents and caution) and photograph again,"
              + " or leave those places out of what you conclude.",
          "At least %.1f %% of the %s is hidden: %.1f %% by dark spots such as dust, %.1f %% by"
              + " bright ones such as residue of metal or glare.",
          100 * in.artefacts().dirt().share(),
          area(),
          100 * in.artefacts().dirt().darkShare(),
          100 * in.artefacts().dirt().brightShare());
    }
    if (in.capture().noise().sigma() >= NOISY) {
      add(
          "noisy",
          "Expose longer at lower gain, or average several exposures.",
          "The noise is %.1f %% of the full range of grey, so faint lattices drown.",
          100 * in.capture().noise().sigma());
    }
  }

  private void sampling() {
    in.detail()
        .optics()
        .filter(o -> o.sampling().isPresent())
        .filter(o -> o.sampling().get() == Optics.Sampling.TOO_COARSE)
        .ifPresent(
            o ->
                add(
                    "coarse-for-objective",
                    "Use a stronger camera adapter or a camera with smaller pixels, or accept that"
                        + " the picture shows less than the objective.",
                    "One pixel covers %.2f \u00b5m, but the objective resolves %.2f \u00b5m and"
                        + " needs %.2f \u00b5m per pixel or less: detail is lost, and fine lattices"
                        + " may show a false period.",
                    in.subject().scale().get().umPerPx().value(),
                    o.rayleighUm(),
                    o.coarsestPitchUm()));
  }

  private void node() {
    if (in.detail().node().isEmpty()) {
      return;
    }
    for (Structure s : in.detail().node().get().structures()) {
      if (s.visibility() == Visibility.NOT_RESOLVABLE) {
        boolean gates = s.kind() == Kind.GATE;
        add(
            gates ? "gates-not-resolvable" : id(s.kind()),
            gates
                ? "Take gate counts as estimates; for single gates an electron microscope is"
                    + " needed."
                : "Use a stronger objective and finer pixels if you need them; else take what"
                    + " rests on them as an estimate.",
            gates
                ? "At %.0f nm %s cannot resolve single gates (%.2f \u00b5m against %.2f \u00b5m):"
                    + " counts will be estimated from area."
                : "At %.0f nm %s cannot resolve the "
                    + s.kind().label()
                    + " (%.2f \u00b5m against"
                    + " %.2f \u00b5m).",
            in.detail().node().get().nodeNm(),
            who(s),
            s.sizeUm(),
            s.limitUm());
      }
    }
  }

  private static String id(Kind kind) {
    return switch (kind) {
      case BOND_PAD -> "pads-not-resolvable";
      case HARD_MACRO -> "macros-not-resolvable";
      case CELL_ROW -> "rows-not-resolvable";
      case BIT_CELL -> "bit-cells-not-resolvable";
      case GATE -> "gates-not-resolvable";
    };
  }

  private String who(Structure s) {
    return switch (s.limit()) {
      case OPTICS ->
          in.detail().node().get().apertureAssumed() > 0
              ? "light of this colour, even through the best dry objective,"
              : "this objective";
      case SAMPLING -> "this pixel pitch";
      case PHOTOGRAPH -> "this photograph";
    };
  }
}
