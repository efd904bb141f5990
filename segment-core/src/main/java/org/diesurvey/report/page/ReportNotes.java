package org.diesurvey.report.page;

import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.photo.PhotoInfo;
import org.diesurvey.preparation.edges.DieSide;
import org.diesurvey.report.picture.PhotoPyramid;
import org.diesurvey.report.text.DieWords;
import org.diesurvey.report.text.Quantities;
import org.diesurvey.survey.DieFrame;
import org.diesurvey.survey.Notice;
import org.diesurvey.survey.Survey;

/** The parts of the page that say how far to trust it. All methods return safe markup. */
public final class ReportNotes {
  private ReportNotes() {}

  public static String certainty(Survey survey) {
    StringBuilder s = new StringBuilder("<section>\n<h2>How sure</h2>\n");
    s.append(
        """
        <p><strong>Confidence</strong> is the probability that a region's class is right. It was
        calibrated on drawn dies that the classifier had not seen; a technology or preparation unlike
        them can make it too high. It says nothing about the area.</p>
        <p><strong>Uncertainty of areas.</strong> The figure after \u00b1 is the standard uncertainty
        (k\u00a0=\u00a01). If errors follow a normal distribution, the true value lies within \u00b1
        one of it in about two cases of three and within \u00b1 two in about nineteen of twenty. It
        joins two parts: where the outline runs, which is each region's own, and the pixel pitch,
        which is common to all regions and enters areas twice, so it does not average out in
        totals. It assumes that the class is right.</p>
        """);
    if (survey.scale().calibration().isPresent()) {
      Calibration c = survey.scale().calibration().get();
      s.append("<p><strong>Scale.</strong> ")
          .append(Html.escape(Quantities.withUncertainty(c.umPerPx(), "\u00b5m/px")))
          .append(", ")
          .append(Html.escape(DieWords.origin(c.origin())))
          .append(
              c.note().isBlank() || c.note().equals(DieWords.origin(c.origin()))
                  ? ". "
                  : " (" + Html.escape(c.note()) + "). ");
      if (c.umPerPx().standardUncertainty() == 0) {
        s.append("No uncertainty was stated for it, so areas contain none for the scale.");
      } else {
        s.append("It adds ")
            .append(Html.escape(Quantities.significant(200 * c.umPerPx().relativeUncertainty(), 2)))
            .append("\u00a0% to the standard uncertainty of every area.");
      }
      s.append("</p>\n");
    } else {
      s.append("<p><strong>Scale.</strong> None was given; shares need none.</p>\n");
    }
    s.append("<p><strong>Damage.</strong> ")
        .append(Html.escape(Quantities.percent(survey.preparation().damagedShare())))
        .append(" of the ")
        .append(DieWords.whole(survey))
        .append(" is hidden by residue, scratches, glare or burns")
        .append(survey.preparation().damage().isEmpty() ? "" : ": " + Html.escape(kinds(survey)))
        .append(". Such places are left unclear and count in the area of no class; bit-cell arrays")
        .append(" are drawn on below them.")
        .append("</p>\n");
    return s + "</section>\n";
  }

  /** How much of the photograph's detail the page carries. */
  static String picture(Survey survey, PhotoPyramid pyramid) {
    int by = pyramid.reduction();
    return "<section class=\"picture-note\">\n<h2>The picture in this page</h2>\n<p>"
        + (by == 1
            ? "The photograph is in this file at full resolution, packed as JPEG; fine noise may"
                + " differ from the original."
            : "The photograph has "
                + DieWords.pixels(survey)
                + ", too many for a page: here "
                + by
                + " \u00d7 "
                + by
                + " pixels are averaged to one. The survey used all of them.")
        + " Grey values for measurement must come from the original file.</p>\n</section>\n";
  }

  public static String notices(List<Notice> notices) {
    StringBuilder s = new StringBuilder("<section id=\"warnings\">\n<h2>Warnings</h2>\n");
    if (notices.isEmpty()) {
      return s + "<p>None.</p>\n</section>\n";
    }
    s.append("<ul class=\"notices\">\n");
    for (Notice n : notices) {
      s.append("<li><strong>")
          .append(Html.escape(n.sentence()))
          .append("</strong> ")
          .append(Html.escape(n.remedy()))
          .append(" <code>")
          .append(Html.escape(n.id()))
          .append("</code></li>\n");
    }
    return s + "</ul>\n</section>\n";
  }

  public static String provenance(Survey survey, Instant created) {
    PhotoInfo p = survey.photo();
    StringBuilder s = new StringBuilder("<section>\n<h2>Provenance</h2>\n<dl class=\"facts\">\n");
    fact(s, "Photograph", p.fileName());
    fact(
        s,
        "File",
        String.format(
            Locale.ROOT,
            "%s, %d \u00d7 %d px, %d bit, %d %s, %,d bytes",
            p.format(),
            p.widthPx(),
            p.heightPx(),
            p.bitsPerSample(),
            p.samplesPerPixel(),
            p.samplesPerPixel() == 1 ? "channel" : "channels",
            p.fileBytes()));
    fact(s, "SHA-256 of the file", p.sha256());
    fact(
        s,
        "Software",
        survey.method().software().name() + " " + survey.method().software().version());
    fact(s, "Model", survey.method().software().model());
    fact(s, "SHA-256 of the model", survey.method().software().modelSha256());
    fact(s, "Created", created.toString());
    fact(s, "Die edge", dieEdge(survey));
    fact(s, "Rotation", DieWords.turn(survey.die().rotationDeg()));
    s.append("</dl>\n");
    if (!survey.preparation().steps().isEmpty()) {
      s.append("<h3>Preparation of the photograph</h3>\n<ol>\n");
      survey
          .preparation()
          .sentences()
          .forEach(step -> s.append("<li>").append(Html.escape(step)).append("</li>\n"));
      s.append("</ol>\n");
    }
    s.append("<h3>Settings</h3>\n<dl class=\"facts\">\n");
    String unit = survey.scale().calibration().isPresent() ? " \u00b5m" : " px";
    fact(s, "Side of a tile", Quantities.significant(survey.method().tileUm(), 2) + unit);
    int px = survey.method().photoPxPerWorkingPx();
    fact(s, "Averaging", px == 1 ? "none, every pixel" : px + " x " + px + " px to one");
    s.append("</dl>\n");
    return s + "</section>\n";
  }

  private static String dieEdge(Survey survey) {
    DieFrame die = survey.die();
    if (die.partial()) {
      return "real on these sides, the photograph cuts the others: "
          + die.realEdges().stream().map(DieSide::word).collect(Collectors.joining(", "));
    }
    return die.edgeFound() ? "found" : "not found; surveyed as a whole";
  }

  /** "bright residue or glare 0.2 % (3 places), ...". */
  private static String kinds(Survey survey) {
    return survey.preparation().damage().stream()
        .map(
            d ->
                d.kind().label()
                    + " "
                    + Quantities.percent(d.shareOfDie())
                    + " ("
                    + d.places()
                    + (d.places() == 1 ? " place)" : " places)"))
        .collect(Collectors.joining(", "));
  }

  private static void fact(StringBuilder s, String name, String value) {
    s.append("<div><dt>").append(Html.escape(name)).append("</dt><dd>");
    s.append(Html.escape(value)).append("</dd></div>\n");
  }
}
