package org.diesurvey.photo;

import java.io.IOException;
import java.io.StringReader;
import java.util.Optional;
import javax.xml.parsers.DocumentBuilder;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.diesurvey.photo.PhotoInfo.TaggedScale;
import org.diesurvey.photo.tiff.TiffDirectory;
import org.diesurvey.photo.tiff.TiffTag;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;
import org.xml.sax.SAXException;
import org.xml.sax.helpers.DefaultHandler;

/** Scale tags of a TIFF: OME-XML in the description first, then the resolution tags. */
final class TiffScale {
  private static final int MAX_DESCRIPTION_BYTES = 1 << 24;
  private static final int INCH = 2;
  private static final int CENTIMETRE = 3;

  private TiffScale() {}

  static Optional<TaggedScale> read(TiffDirectory tags) {
    Optional<TaggedScale> ome =
        ofOmeXml(tags.text(TiffTag.IMAGE_DESCRIPTION, MAX_DESCRIPTION_BYTES));
    if (ome.isPresent()) {
      return ome;
    }
    Optional<TaggedScale> stack =
        ofImageJ(
            tags.text(TiffTag.IMAGE_DESCRIPTION, MAX_DESCRIPTION_BYTES),
            tags.ratio(TiffTag.X_RESOLUTION));
    return stack.isPresent() ? stack : ofResolution(tags);
  }

  /**
   * ImageJ writes pixels per unit into XResolution and the name of the unit into the description,
   * one "name=value" a line after the first, "ImageJ=version" (from its files; no standard).
   */
  static Optional<TaggedScale> ofImageJ(String text, double perUnit) {
    if (!text.startsWith("ImageJ=")) {
      return Optional.empty();
    }
    for (String line : text.split("\n", -1)) {
      if (line.startsWith("unit=")) {
        String unit = line.substring("unit=".length()).strip().replace("\\u00B5", "\u00b5");
        double um =
            switch (unit) {
              case "micron", "microns", "um", "\u00b5m", "\u03bcm", "micrometer" -> 1;
              case "inch" -> ScaleTags.UM_PER_INCH;
              default -> umPerUnit(unit.isEmpty() ? "?" : unit);
            };
        return ScaleTags.ofDensity(perUnit, um, "ImageJ description, unit=" + unit);
      }
    }
    return Optional.empty();
  }

  /** Planes of a stack that ImageJ wrote behind each other after one directory; 1 if none. */
  static int imageJPlanes(String text) {
    if (!text.startsWith("ImageJ=")) {
      return 1;
    }
    for (String line : text.split("\n", -1)) {
      if (line.strip().matches("images=[0-9]{1,6}")) {
        return Math.max(1, Integer.parseInt(line.strip().substring("images=".length())));
      }
    }
    return 1;
  }

  static Optional<TaggedScale> ofResolution(TiffDirectory tags) {
    double perUnit = tags.ratio(TiffTag.X_RESOLUTION);
    // The unit's default is the inch (TIFF 6.0, section 8).
    long unit = tags.number(TiffTag.RESOLUTION_UNIT, INCH);
    if (unit == INCH) {
      return ScaleTags.ofDensity(
          perUnit, ScaleTags.UM_PER_INCH, "TIFF XResolution/ResolutionUnit (per inch)");
    }
    if (unit == CENTIMETRE) {
      return ScaleTags.ofDensity(
          perUnit, ScaleTags.UM_PER_CENTIMETRE, "TIFF XResolution/ResolutionUnit (per centimetre)");
    }
    return Optional.empty();
  }

  /**
   * PhysicalSizeX of the first Pixels element of an OME-XML text (OME data model 2016-06); the unit
   * is micrometres unless PhysicalSizeXUnit says otherwise. Anything that is not such a text is no
   * scale. Document types and outside entities are not followed.
   */
  static Optional<TaggedScale> ofOmeXml(String text) {
    if (!text.contains("<OME") && !text.contains(":OME")) {
      return Optional.empty();
    }
    try {
      DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
      factory.setNamespaceAware(true);
      factory.setXIncludeAware(false);
      factory.setExpandEntityReferences(false);
      factory.setFeature("http://apache.org/xml/features/disallow-doctype-decl", true);
      DocumentBuilder builder = factory.newDocumentBuilder();
      builder.setErrorHandler(new DefaultHandler());
      Element root = builder.parse(new InputSource(new StringReader(text))).getDocumentElement();
      NodeList pixels = root.getElementsByTagNameNS("*", "Pixels");
      if (pixels.getLength() == 0) {
        return Optional.empty();
      }
      Element first = (Element) pixels.item(0);
      double size = Double.parseDouble(first.getAttribute("PhysicalSizeX"));
      double umPerUnit = umPerUnit(first.getAttribute("PhysicalSizeXUnit"));
      return ScaleTags.ofPitch(size * umPerUnit, "OME-XML PhysicalSizeX");
    } catch (ParserConfigurationException e) {
      throw new IllegalStateException("the XML parser cannot switch document types off", e);
    } catch (SAXException | IOException | NumberFormatException e) {
      return Optional.empty();
    }
  }

  private static double umPerUnit(String unit) {
    return switch (unit) {
      case "", "\u00b5m", "\u03bcm" -> 1;
      case "pm" -> 1e-6;
      case "\u00c5" -> 1e-4;
      case "nm" -> 1e-3;
      case "mm" -> 1e3;
      case "cm" -> 1e4;
      case "m" -> 1e6;
      case "in" -> ScaleTags.UM_PER_INCH;
      default -> Double.NaN;
    };
  }
}
