package org.diesurvey.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.inspection.Contamination;
import org.diesurvey.inspection.Finding;
import org.diesurvey.inspection.FocusMap;
import org.diesurvey.inspection.Inspection;
import org.diesurvey.inspection.NodeVerdict;
import org.diesurvey.inspection.Optics;
import org.diesurvey.inspection.Stitching;
import org.diesurvey.photo.Levels;
import org.diesurvey.photo.PhotoInfo;
import org.diesurvey.report.picture.InspectionFolder;

/** An inspection as a short text for the console. */
final class InspectionTable {
  private static final int LABEL = 11;
  private static final int WIDTH = 82;

  private final Terminal terminal;

  InspectionTable(Terminal terminal) {
    this.terminal = terminal;
  }

  void print(Path photo, Inspection in, Optional<Path> out) {
    terminal.result(terminal.strong(photo.toString()));
    line("photo", photo(in.subject().photo()));
    line("scale", scale(in));
    line("die", die(in));
    line("focus", focus(in.capture().focus()));
    line("levels", levels(in.subject().levels()));
    line("exposure", exposure(in));
    line("light", light(in));
    line("stitching", stitching(in.artefacts().stitching()));
    line("compression", compression(in));
    line("dirt", dirt(in));
    line("noise", noise(in));
    line("detail", detail(in));
    in.detail().optics().ifPresent(o -> optics(in, o));
    in.detail().node().ifPresent(this::node);
    for (Finding f : in.findings()) {
      List<String> lines = Wrapping.lines(f.sentence() + " " + f.remedy(), WIDTH);
      for (int i = 0; i < lines.size(); i++) {
        line(i == 0 ? "warning" : "", terminal.warning(lines.get(i)));
      }
    }
    if (in.findings().isEmpty()) {
      line("verdict", "nothing found that spoils a survey");
    }
    out.ifPresent(
        folder -> {
          line("picture", folder.resolve(InspectionFolder.PICTURE).toString());
          line("document", folder.resolve(InspectionFolder.DOCUMENT).toString());
        });
  }

  private void line(String label, String text) {
    terminal.result("  " + label + " ".repeat(LABEL - label.length()) + "  " + text);
  }

  private static String format(String pattern, Object... values) {
    return String.format(Locale.ROOT, pattern, values);
  }

  private static String photo(PhotoInfo p) {
    String colours = p.samplesPerPixel() >= 3 ? "colour" : "grey";
    return format(
        "%d \u00d7 %d px (%.1f MP), %d bit %s, %s",
        p.widthPx(),
        p.heightPx(),
        p.widthPx() * (double) p.heightPx() / 1e6,
        p.bitsPerSample(),
        colours,
        p.format());
  }

  private static String scale(Inspection in) {
    if (in.subject().scale().isEmpty()) {
      return "none stated: lengths in pixels only";
    }
    Calibration c = in.subject().scale().get();
    String origin =
        switch (c.origin()) {
          case STATED -> "stated";
          case CALIBRATION_FILE -> c.note();
          case PHOTO_METADATA -> "from the file's own tag, often meaningless";
          case DIE_SIZE -> "from the die size stated and the die edge found";
        };
    return Figures.measured(c.umPerPx()) + " \u00b5m/px, " + origin;
  }

  private static String die(Inspection in) {
    double deg = in.subject().die().rotationDeg();
    String turn = format("%.2f\u00b0 %s", Math.abs(deg), deg < 0 ? "anticlockwise" : "clockwise");
    if (!in.subject().die().edgeFound()) {
      return "no die edge found: the whole photograph; layout turned by " + turn;
    }
    String size =
        in.subject()
            .scale()
            .map(
                c ->
                    format(
                        "%.2f \u00d7 %.2f mm",
                        in.subject().die().widthPx() * c.umPerPx().value() / 1000,
                        in.subject().die().heightPx() * c.umPerPx().value() / 1000))
            .orElse(
                format(
                    "%.0f \u00d7 %.0f px",
                    in.subject().die().widthPx(), in.subject().die().heightPx()));
    return "found, " + size + ", turned by " + turn;
  }

  private static String focus(FocusMap f) {
    if (f.medianPx().isEmpty()) {
      return "not judged: no edges stand out of the noise";
    }
    double most = f.blurPx().stream().flatMapToDouble(o -> o.stream()).max().orElse(0);
    double least = f.blurPx().stream().flatMapToDouble(o -> o.stream()).min().orElse(0);
    String verdict =
        f.tilt().isPresent()
            ? "tilted"
            : f.softCorners().isEmpty() ? "even over the field" : "corners soft";
    return format(
        "%s; softness of edges %.1f px, by place %.1f to %.1f px",
        verdict, f.medianPx().getAsDouble(), least, most);
  }

  private static String levels(Levels l) {
    return format(
        "%d of %d bits in use, from %.0f to %.0f %% of their levels%s",
        l.bits(),
        l.storedBits(),
        100 * l.low(),
        100 * l.high(),
        l.stretched() ? ", spread over the scale for a survey" : "");
  }

  private static String exposure(Inspection in) {
    return share(in.capture().exposure().whiteShare())
        + " clipped to white, "
        + share(in.capture().exposure().blackShare())
        + " to black";
  }

  private static String light(Inspection in) {
    return in.capture().light().judged()
        ? format("falls off by %.0f %% over the die", 100 * in.capture().light().share())
        : "not judged: without a die edge, blocks of the layout look the same as uneven light";
  }

  private static String stitching(Stitching s) {
    String seams =
        !s.judged()
            ? "seams not judged (layout along the pixel rows)"
            : s.seams().isEmpty() ? "no seams found" : count(s.seams().size(), "seam");
    String repeats =
        s.repeats().isEmpty()
            ? "no repeated stripes"
            : count(s.repeats().size(), "repeated stripe");
    return seams + ", " + repeats;
  }

  private static String count(int n, String what) {
    return n + " " + what + (n == 1 ? "" : "s");
  }

  private static String compression(Inspection in) {
    String grid =
        format(
            "steps on the 8 px grid %.2f times the others",
            in.artefacts().compression().gridRatio());
    return in.artefacts()
            .compression()
            .jpeg()
            .map(
                j ->
                    format(
                        "JPEG of quality %s%d of 100; ",
                        j.commonTable() ? "" : "about ", j.quality()))
            .orElse("no JPEG; ")
        + grid;
  }

  private static String dirt(Inspection in) {
    Contamination d = in.artefacts().dirt();
    if (d.spotCount() == 0) {
      return "none found";
    }
    return format(
        "at least %s hidden: dark spots %s, bright spots %s; %s",
        share(d.share()),
        share(d.darkShare()),
        share(d.brightShare()),
        count(d.spotCount(), "spot"));
  }

  private static String noise(Inspection in) {
    return format(
        "%.2f of 255 levels where the picture is quietest", 255 * in.capture().noise().sigma());
  }

  private static String detail(Inspection in) {
    String um = in.finestPeriodUm().map(v -> format(" (%.2f \u00b5m)", v)).orElse("");
    return format(
            "finest period above the noise %.1f px", in.detail().resolution().finestPeriodPx())
        + um
        + (in.detail().resolution().atSamplingLimit() ? ", the limit of the sampling" : "");
  }

  private void optics(Inspection in, Optics o) {
    line(
        "optics",
        format(
            "NA %s at %.0f nm: Rayleigh %.2f \u00b5m, Abbe %.2f \u00b5m, depth of field %.2f"
                + " \u00b5m%s",
            o.aperture(),
            o.wavelengthNm(),
            o.rayleighUm(),
            o.abbeUm(),
            o.depthOfFieldUm(),
            o.index() > 1 ? " in oil" : ""));
    String needed = format("Nyquist asks for %.3f \u00b5m/px or less", o.coarsestPitchUm());
    String verdict =
        o.sampling()
            .map(
                s ->
                    switch (s) {
                      case FINE_ENOUGH -> "sampled finely enough; ";
                      case JUST_ENOUGH -> "sampled just finely enough; ";
                      case TOO_COARSE -> "sampled too coarsely for this objective; ";
                    })
            .orElse("sampling not judged without a scale; ");
    line("", verdict + needed);
  }

  private void node(NodeVerdict v) {
    line(
        "node",
        format("%.0f nm", v.nodeNm())
            + (v.apertureAssumed() > 0
                ? format("; no aperture stated, so NA %s is assumed", v.apertureAssumed())
                : ""));
    Columns table = new Columns();
    table.row("structure", "size, \u00b5m", "limit, \u00b5m", "set by", "verdict");
    for (NodeVerdict.Structure s : v.structures()) {
      table.row(
          s.kind().label(),
          Figures.significant(s.sizeUm(), 3),
          Figures.significant(s.limitUm(), 3),
          switch (s.limit()) {
            case OPTICS -> "light";
            case SAMPLING -> "pixels";
            case PHOTOGRAPH -> "this photo";
          },
          switch (s.visibility()) {
            case RESOLVABLE -> "resolvable";
            case AT_THE_LIMIT -> "at the limit";
            case NOT_RESOLVABLE -> "not resolvable";
          });
    }
    for (String row : table.lines(LABEL + 4)) {
      terminal.result(row);
    }
    for (String text : Wrapping.lines("Sizes assumed: " + sources(v) + ".", WIDTH)) {
      line("", text);
    }
  }

  /** Where the sizes come from, structures of one source together. */
  private static String sources(NodeVerdict v) {
    Map<String, String> bySource = new LinkedHashMap<>();
    for (NodeVerdict.Structure s : v.structures()) {
      bySource.merge(s.source(), s.kind().label(), (a, b) -> a + ", " + b);
    }
    List<String> parts = new ArrayList<>();
    bySource.forEach((source, structures) -> parts.add(structures + " (" + source + ")"));
    return String.join("; ", parts);
  }

  private static String share(double share) {
    return share == 0 ? "0 %" : share < 0.0001 ? "< 0.01 %" : format("%.2f %%", 100 * share);
  }
}
