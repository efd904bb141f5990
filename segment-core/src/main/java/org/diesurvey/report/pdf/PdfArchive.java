package org.diesurvey.report.pdf;

import java.awt.color.ColorSpace;
import java.awt.color.ICC_Profile;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.Calendar;
import java.util.GregorianCalendar;
import java.util.Locale;
import java.util.TimeZone;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDDocumentInformation;
import org.apache.pdfbox.pdmodel.common.PDMetadata;
import org.apache.pdfbox.pdmodel.graphics.color.PDOutputIntent;
import org.apache.pdfbox.pdmodel.interactive.viewerpreferences.PDViewerPreferences;
import org.diesurvey.interchange.XmlText;

/**
 * What makes a PDF one for archives: PDF/A-1b (ISO 19005-1, level B) asks for version 1.4, embedded
 * fonts, an output intent with its colour profile, and XMP metadata that agree with the document
 * information. The profile is the sRGB of the Java platform.
 */
final class PdfArchive {
  private PdfArchive() {}

  /** Marks a document; identifiers and dates follow from the arguments alone. */
  static void mark(PDDocument document, String title, String software, Instant created)
      throws IOException {
    document.setVersion(1.4f);
    document.setDocumentId(created.getEpochSecond());
    document.getDocumentCatalog().setLanguage("en");
    PDViewerPreferences viewer = new PDViewerPreferences(new org.apache.pdfbox.cos.COSDictionary());
    viewer.setDisplayDocTitle(true);
    document.getDocumentCatalog().setViewerPreferences(viewer);
    Calendar moment = new GregorianCalendar(TimeZone.getTimeZone("UTC"), Locale.ROOT);
    moment.setTimeInMillis(created.toEpochMilli());
    PDDocumentInformation info = document.getDocumentInformation();
    info.setTitle(title);
    info.setCreator(software);
    info.setProducer(software);
    info.setCreationDate(moment);
    info.setModificationDate(moment);
    PDMetadata metadata = new PDMetadata(document);
    metadata.importXMPMetadata(xmp(title, software, created).getBytes(StandardCharsets.UTF_8));
    document.getDocumentCatalog().setMetadata(metadata);
    byte[] profile = ICC_Profile.getInstance(ColorSpace.CS_sRGB).getData();
    PDOutputIntent intent = new PDOutputIntent(document, new ByteArrayInputStream(profile));
    intent.setInfo("sRGB IEC61966-2.1");
    intent.setOutputCondition("sRGB IEC61966-2.1");
    intent.setOutputConditionIdentifier("sRGB IEC61966-2.1");
    intent.setRegistryName("http://www.color.org");
    document.getDocumentCatalog().addOutputIntent(intent);
  }

  /** The packet of ISO 16684-1 with the schema of ISO 19005-1, 6.7.11. */
  private static String xmp(String title, String software, Instant created) {
    return """
    <?xpacket begin="\ufeff" id="W5M0MpCehiHzreSzNTczkc9d"?>
    <x:xmpmeta xmlns:x="adobe:ns:meta/">
     <rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
      <rdf:Description rdf:about="" xmlns:pdfaid="http://www.aiim.org/pdfa/ns/id/">
       <pdfaid:part>1</pdfaid:part>
       <pdfaid:conformance>B</pdfaid:conformance>
      </rdf:Description>
      <rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/">
       <dc:format>application/pdf</dc:format>
       <dc:title><rdf:Alt><rdf:li xml:lang="x-default">TITLE</rdf:li></rdf:Alt></dc:title>
      </rdf:Description>
      <rdf:Description rdf:about="" xmlns:xmp="http://ns.adobe.com/xap/1.0/">
       <xmp:CreatorTool>SOFTWARE</xmp:CreatorTool>
       <xmp:CreateDate>MOMENT</xmp:CreateDate>
       <xmp:ModifyDate>MOMENT</xmp:ModifyDate>
      </rdf:Description>
      <rdf:Description rdf:about="" xmlns:pdf="http://ns.adobe.com/pdf/1.3/">
       <pdf:Producer>SOFTWARE</pdf:Producer>
      </rdf:Description>
     </rdf:RDF>
    </x:xmpmeta>
    <?xpacket end="w"?>
    """
        .replace("MOMENT", created.toString().replace("Z", "+00:00"))
        .replace("SOFTWARE", XmlText.escape(software))
        .replace("TITLE", XmlText.escape(title));
  }
}
