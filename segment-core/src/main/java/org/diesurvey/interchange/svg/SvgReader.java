package org.diesurvey.interchange.svg;

import java.io.ByteArrayInputStream;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import org.diesurvey.interchange.OutlineChecks;
import org.diesurvey.interchange.Refused;
import org.diesurvey.raster.PlaneTransform;

/**
 * Reads the shapes of an SVG drawing with their groups and transforms; {@link SvgOutlines} makes
 * outlines of them. Paths, polygons, rectangles, circles and ellipses are read; text, lines,
 * gradients and what editors keep for themselves are passed over; copies by reference are refused.
 * No document type and no entity is read, nothing outside the file is opened.
 */
final class SvgReader {
  private static final String SVG = "http://www.w3.org/2000/svg";
  private static final String XLINK = "http://www.w3.org/1999/xlink";
  private static final int DEEPEST = 64;

  private static final Set<String> SHAPES =
      Set.of("path", "polygon", "polyline", "rect", "circle", "ellipse");

  private static final Set<String> PASSED_OVER =
      Set.of(
          "defs",
          "metadata",
          "style",
          "text",
          "line",
          "clipPath",
          "mask",
          "symbol",
          "pattern",
          "marker",
          "linearGradient",
          "radialGradient",
          "filter",
          "script",
          "foreignObject");

  /**
   * An open element.
   *
   * @param parent the element around it; empty for the root
   * @param name local name
   * @param attributes without namespace
   * @param toRoot map from its coordinates to those of the root
   * @param title text of its title element, filled while reading
   */
  record Element(
      Optional<Element> parent,
      String name,
      Map<String, String> attributes,
      PlaneTransform toRoot,
      StringBuilder title) {
    Optional<String> attribute(String key) {
      return Optional.ofNullable(attributes.get(key));
    }
  }

  /**
   * The drawing.
   *
   * @param root its outermost element
   * @param image the linked photograph; the first picture there is
   * @param shapes in the order of the file
   */
  record Drawing(Element root, Optional<Element> image, List<Element> shapes) {}

  private final String place;
  private final Deque<Element> open = new ArrayDeque<>();
  private final List<Element> shapes = new ArrayList<>();
  private Element root;
  private Element image;

  private SvgReader(String place) {
    this.place = place;
  }

  static Drawing read(byte[] bytes, String place) {
    SvgReader r = new SvgReader(place);
    try {
      r.read(factory().createXMLStreamReader(new ByteArrayInputStream(bytes)));
    } catch (XMLStreamException e) {
      throw Refused.file(
          place,
          "this is no well-formed SVG"
              + (e.getLocation() == null ? "" : " (line " + e.getLocation().getLineNumber() + ")")
              + "; save it again as plain SVG",
          e);
    }
    return new Drawing(r.root, Optional.ofNullable(r.image), r.shapes);
  }

  private static XMLInputFactory factory() {
    XMLInputFactory f = XMLInputFactory.newDefaultFactory();
    f.setProperty(XMLInputFactory.SUPPORT_DTD, false);
    f.setProperty(XMLInputFactory.IS_SUPPORTING_EXTERNAL_ENTITIES, false);
    f.setProperty(XMLInputFactory.IS_REPLACING_ENTITY_REFERENCES, false);
    f.setProperty(XMLInputFactory.IS_COALESCING, true);
    f.setXMLResolver(
        (publicId, systemId, base, namespace) -> {
          throw new XMLStreamException("nothing outside the file is opened");
        });
    return f;
  }

  private void read(XMLStreamReader in) throws XMLStreamException {
    int passing = 0;
    while (in.hasNext()) {
      switch (in.next()) {
        case XMLStreamConstants.DTD, XMLStreamConstants.ENTITY_REFERENCE ->
            throw Refused.file(
                place,
                "document types (DOCTYPE) and entities are not read; save it as plain SVG without"
                    + " them");
        case XMLStreamConstants.START_ELEMENT -> {
          if (passing > 0 || !SVG.equals(in.getNamespaceURI()) && !open.isEmpty()) {
            passing++;
          } else if (PASSED_OVER.contains(in.getLocalName())) {
            passing = 1;
          } else {
            start(in);
          }
          if (open.size() + passing > DEEPEST) {
            throw Refused.file(
                place, "elements are nested deeper than " + DEEPEST + "; ungroup the drawing");
          }
        }
        case XMLStreamConstants.END_ELEMENT -> {
          if (passing > 0) {
            passing--;
          } else {
            open.pop();
          }
        }
        case XMLStreamConstants.CHARACTERS -> text(in, passing);
        default -> {}
      }
    }
  }

  private void text(XMLStreamReader in, int passing) {
    if (passing == 0 && !open.isEmpty() && open.peek().name.equals("title")) {
      Element owner = open.peek().parent.orElse(open.peek());
      String t = in.getText();
      owner.title.append(t, 0, Math.min(t.length(), 1000));
    }
  }

  private void start(XMLStreamReader in) {
    String name = in.getLocalName();
    if (open.isEmpty() && !(name.equals("svg") && SVG.equals(in.getNamespaceURI()))) {
      throw Refused.file(place, "this is XML, but no SVG; give an SVG file");
    }
    Map<String, String> attributes = attributes(in);
    Element parent = open.peek();
    Element e =
        new Element(
            Optional.ofNullable(parent),
            name,
            attributes,
            map(parent, attributes),
            new StringBuilder());
    open.push(e);
    if (parent == null) {
      root = e;
    } else if (name.equals("svg") || name.equals("use") || name.equals("switch")) {
      throw Refused.file(
          place,
          "the element '"
              + name
              + "' is not read; turn copies and nested drawings into plain"
              + " paths");
    } else if (name.equals("image") && image == null) {
      image = e;
    } else if (SHAPES.contains(name)) {
      shapes.add(e);
      if (shapes.size() > OutlineChecks.MOST_OUTLINES) {
        throw Refused.file(place, "there are more than " + OutlineChecks.MOST_OUTLINES + " shapes");
      }
    }
  }

  /** The transform of the root itself would move picture and shapes alike; it is not applied. */
  private PlaneTransform map(Element parent, Map<String, String> attributes) {
    if (parent == null) {
      return PlaneTransform.IDENTITY;
    }
    String t = attributes.get("transform");
    try {
      return t == null ? parent.toRoot : SvgTransform.of(t).then(parent.toRoot);
    } catch (IllegalArgumentException e) {
      throw Refused.file(
          place,
          "the transform '" + Refused.quoted(t) + "' cannot be read; save it again as plain SVG",
          e);
    }
  }

  private static Map<String, String> attributes(XMLStreamReader in) {
    Map<String, String> all = new TreeMap<>();
    for (int i = 0; i < in.getAttributeCount(); i++) {
      String space = in.getAttributeNamespace(i);
      if (space == null || space.isEmpty() || XLINK.equals(space)) {
        all.putIfAbsent(in.getAttributeLocalName(i), in.getAttributeValue(i));
      }
    }
    return all;
  }
}
