package org.diesurvey.report;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.Base64;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageWriteParam;
import javax.imageio.ImageWriter;
import javax.imageio.stream.MemoryCacheImageOutputStream;
import org.diesurvey.survey.Survey;

/**
 * The page for people: one file that needs no other and asks nothing of the network, which its own
 * Content Security Policy enforces.
 */
final class ReportPage {
  private static final float JPEG_QUALITY = 0.85f;

  private ReportPage() {}

  /**
   * @param overlay picture of the survey
   * @param created moment to show
   */
  static String html(Survey survey, BufferedImage overlay, Instant created) {
    String css = resource("report.css");
    ReportSections sections = new ReportSections(survey);
    RegionTables tables = new RegionTables(survey);
    String name = Html.escape(survey.photo().fileName());
    StringBuilder page = new StringBuilder();
    page.append("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n")
        .append("<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none';")
        .append(" img-src data:; style-src ")
        .append(Html.hashSource(css))
        .append("; base-uri 'none'; form-action 'none'\">\n")
        .append("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n")
        .append("<meta name=\"color-scheme\" content=\"light dark\">\n<title>Die survey: ")
        .append(name)
        .append("</title>\n<style>")
        .append(css)
        .append("</style>\n</head>\n<body>\n")
        .append(ShareChart.patterns())
        .append("<header>\n<p class=\"kind\">Die survey</p>\n<h1>")
        .append(name)
        .append("</h1>\n")
        .append(sections.lead())
        .append("</header>\n<main>\n")
        .append(sections.keyFigures())
        .append(sections.inBrief())
        .append("<figure>\n<img alt=\"")
        .append(Html.escape(sections.pictureInWords()))
        .append("\" width=\"")
        .append(overlay.getWidth())
        .append("\" height=\"")
        .append(overlay.getHeight())
        .append("\" src=\"data:image/jpeg;base64,")
        .append(Base64.getEncoder().encodeToString(jpeg(overlay)))
        .append("\">\n<figcaption>The photograph with the regions found. Solid outlines: regions;")
        .append(" thin dashed lines: bit-cell arrays inside a memory array")
        .append(survey.die().edgeFound() ? "; white line: die edge." : ".")
        .append("</figcaption>\n</figure>\n")
        .append(sections.shares())
        .append(EstimateSection.html(survey))
        .append(tables.regions())
        .append(tables.evidence())
        .append(ReportNotes.certainty(survey))
        .append(ReportNotes.notices(survey))
        .append(ReportNotes.provenance(survey, created.truncatedTo(ChronoUnit.SECONDS)))
        .append(resource("cautions.html"))
        .append("</main>\n</body>\n</html>\n");
    return page.toString();
  }

  private static byte[] jpeg(BufferedImage image) {
    ImageWriter writer = ImageIO.getImageWritersByFormatName("jpeg").next();
    ByteArrayOutputStream bytes = new ByteArrayOutputStream(1 << 20);
    try (var out = new MemoryCacheImageOutputStream(bytes)) {
      ImageWriteParam param = writer.getDefaultWriteParam();
      param.setCompressionMode(ImageWriteParam.MODE_EXPLICIT);
      param.setCompressionQuality(JPEG_QUALITY);
      writer.setOutput(out);
      writer.write(null, new IIOImage(image, null, null), param);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } finally {
      writer.dispose();
    }
    return bytes.toByteArray();
  }

  private static String resource(String name) {
    try (var in = ReportPage.class.getResourceAsStream(name)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
