package org.diesurvey.interchange.annotation;

import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Base64;
import java.util.HexFormat;
import java.util.UUID;
import org.diesurvey.interchange.ClassedOutline;
import org.diesurvey.interchange.OutlineFrame;
import org.diesurvey.interchange.OutlineSet;
import org.diesurvey.interchange.OutlineWords;
import org.diesurvey.interchange.svg.SvgWriter;

/**
 * Outlines as an annotation collection (W3C Recommendation "Web Annotation Data Model", 2017, 5):
 * one annotation for each outline, its target the photograph with an SvgSelector (4.2.7) in pixels,
 * its bodies textual (3.2.4): the class and the reason of unclear area as tags, the id as
 * identifying, measures as describing, notes as commenting; a bit-cell array links to the
 * annotation of its memory. The photograph is named by its SHA-256 (RFC 6920, ni URI), so that the
 * name holds wherever the file lies.
 */
public final class AnnotationWriter {
  /** The context that gives the members their meaning. */
  static final String CONTEXT = "http://www.w3.org/ns/anno.jsonld";

  /** Begin of the name of a photograph with known SHA-256. */
  static final String BY_HASH = "ni:///sha-256;";

  private static final ObjectMapper JSON = new ObjectMapper();

  private final OutlineSet set;
  private final String source;

  private AnnotationWriter(OutlineSet set) {
    this.set = set;
    this.source =
        set.photo()
            .sha256()
            .map(
                h ->
                    BY_HASH
                        + Base64.getUrlEncoder()
                            .withoutPadding()
                            .encodeToString(HexFormat.of().parseHex(h)))
            .orElse(uuid("photo", ""));
  }

  /**
   * The document, JSON-LD, ending with a line feed.
   *
   * @param set in the frame of the photograph
   */
  public static String text(OutlineSet set) {
    if (set.frame() != OutlineFrame.PHOTO_PX) {
      throw new IllegalArgumentException("outlines in px of the photograph are needed");
    }
    DefaultPrettyPrinter lines = new DefaultPrettyPrinter();
    lines.indentObjectsWith(new DefaultIndenter("  ", "\n"));
    lines.indentArraysWith(new DefaultIndenter("  ", "\n"));
    try {
      return JSON.writer(lines).writeValueAsString(new AnnotationWriter(set).collection()) + "\n";
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private ObjectNode collection() {
    ObjectNode root = JSON.createObjectNode();
    root.put("@context", CONTEXT);
    root.put("id", uuid("collection", source));
    root.put("type", "AnnotationCollection");
    root.put("label", "Die outlines" + set.photo().fileName().map(n -> ": " + n).orElse(""));
    root.put("total", set.outlines().size());
    ObjectNode page = root.putObject("first");
    page.put("id", uuid("page", source));
    page.put("type", "AnnotationPage");
    page.put("startIndex", 0);
    ArrayNode items = page.putArray("items");
    set.outlines().forEach(o -> annotation(items.addObject(), o));
    return root;
  }

  private void annotation(ObjectNode a, ClassedOutline o) {
    a.put("id", annotationId(o.id()));
    a.put("type", "Annotation");
    a.put("motivation", "classifying");
    o.author().ifPresent(n -> a.putObject("creator").put("name", n));
    o.time().ifPresent(t -> a.put("created", t.toString()));
    ArrayNode body = a.putArray("body");
    text(body, "tagging", o.inner() ? SvgWriter.BIT_CELLS : o.dieClass().label());
    o.reason().ifPresent(r -> text(body, "tagging", r));
    text(body, "identifying", o.id());
    o.measures().ifPresent(m -> text(body, "describing", OutlineWords.measures(m)));
    o.note().ifPresent(n -> text(body, "commenting", n));
    o.partOf()
        .ifPresent(
            p ->
                body.addObject()
                    .put("type", "SpecificResource")
                    .put("purpose", "linking")
                    .put("source", annotationId(p)));
    ObjectNode target = a.putObject("target");
    target.put("type", "SpecificResource");
    target.putObject("source").put("id", source).put("type", "Image");
    target.putObject("selector").put("type", "SvgSelector").put("value", svg(o));
  }

  private static void text(ArrayNode body, String purpose, String value) {
    body.addObject()
        .put("type", "TextualBody")
        .put("purpose", purpose)
        .put("format", "text/plain")
        .put("value", value);
  }

  private String svg(ClassedOutline o) {
    String size =
        set.extent()
            .map(
                e ->
                    " width=\""
                        + SvgWriter.number(e.width())
                        + "\" height=\""
                        + SvgWriter.number(e.height())
                        + "\"")
            .orElse("");
    return "<svg xmlns=\"http://www.w3.org/2000/svg\""
        + size
        + "><path fill-rule=\"evenodd\" d=\""
        + SvgWriter.pathData(o.shape())
        + "\"/></svg>";
  }

  private String annotationId(String id) {
    return uuid("annotation", source + " " + id);
  }

  /** A name made of what it names (RFC 4122, version 3), so that documents repeat. */
  private static String uuid(String kind, String name) {
    return "urn:uuid:"
        + UUID.nameUUIDFromBytes(
            ("diesurvey " + kind + " " + name).getBytes(StandardCharsets.UTF_8));
  }
}
