package org.diesurvey.report.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.time.Instant;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashSet;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.diesurvey.report.ImageSource;
import org.diesurvey.report.picture.PhotoPyramid;
import org.diesurvey.survey.SmallSurvey;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class ReportPageTest {
  private static final Instant CREATED = Instant.parse("2026-01-31T12:00:00Z");
  private static final String SVG_NAME = "http://www.w3.org/2000/svg";
  private static final String HOSTILE =
      "\"><script>alert(1)</script><img src=x onerror='a()'>&.png";

  private static String page(boolean scaled, String name) {
    BufferedImage picture = new BufferedImage(40, 30, BufferedImage.TYPE_INT_RGB);
    PhotoPyramid pyramid = PhotoPyramid.of(new ImageSource(picture));
    return ReportPage.html(SmallSurvey.of(scaled, name), picture, pyramid, CREATED);
  }

  /** The page without what is run or read by programs. */
  private static String markup(String page) {
    return page.replaceAll("(?s)<style>.*?</style>|<script.*?</script>", "");
  }

  @Test
  void hostileFileName_staysText() {
    String whole = page(true, HOSTILE);
    assertEquals(4, whole.split("<script").length - 1, "data, one tile, viewer, program");
    assertEquals(4, whole.split("</script").length - 1, "none ends early");
    String page = markup(whole);
    assertFalse(page.contains("<script"), "a script got in");
    assertFalse(page.contains("<img src=x"), "an element got in");
    assertTrue(page.contains("&lt;script&gt;alert(1)&lt;/script&gt;"));
    assertTrue(page.contains("A &lt;b&gt;bold&lt;/b&gt; claim."));
  }

  @Test
  void fileNameThatTurnsTheReadingDirection_isMadeVisible() {
    assertEquals("die\uFFFDgnp.exe", Html.escape("die\u202Egnp.exe"));
  }

  @ParameterizedTest(name = "scaled {0}")
  @ValueSource(booleans = {true, false})
  void page_asksNothingOfTheNetwork(boolean scaled) {
    String whole = page(scaled, "small.png");
    String ours =
        whole.replace(PageParts.viewer(), "").replace(PageParts.areas(), "").replace(SVG_NAME, "");
    assertFalse(Pattern.compile("https?:").matcher(ours).find(), "a web address");
    assertFalse(whole.contains("url(images"), "a picture of the viewer library");
    String page = markup(whole);
    assertFalse(page.contains("http:"), "a web address");
    assertFalse(page.contains("https:"), "a web address");
    assertFalse(page.contains("url(//"), "a web address");
    assertFalse(page.contains("@import"), "a foreign style");
    Matcher reference = Pattern.compile("(?:src|href)=\"([^\"]*)\"").matcher(page);
    int n = 0;
    while (reference.find()) {
      n++;
      String target = reference.group(1);
      assertTrue(target.startsWith("data:image/jpeg;base64,") || target.startsWith("#"), target);
    }
    assertEquals(3, n, "the skip link, the picture and the link to the warnings");
    assertTrue(page.contains("default-src 'none'; img-src data:; style-src 'sha256-"));
    assertFalse(
        whole.substring(0, whole.indexOf("<style>")).contains("unsafe"),
        "the policy must not need exceptions");
    assertFalse(page.contains(" style=\""), "the policy forbids styles on elements");
  }

  @ParameterizedTest(name = "scaled {0}")
  @ValueSource(booleans = {true, false})
  void elements_areClosedInOrder_andIdsAreUnique(boolean scaled) {
    String page = markup(page(scaled, HOSTILE));
    Set<String> empty = Set.of("meta", "img", "br", "input");
    Deque<String> open = new ArrayDeque<>();
    Matcher tag = Pattern.compile("<(/?)([a-zA-Z0-9]+)[^>]*?(/?)>").matcher(page);
    while (tag.find()) {
      String name = tag.group(2);
      if (!tag.group(1).isEmpty()) {
        assertEquals(open.pop(), name, "near " + page.substring(Math.max(0, tag.start() - 60)));
      } else if (tag.group(3).isEmpty() && !empty.contains(name)) {
        open.push(name);
      }
    }
    assertTrue(open.isEmpty(), open.toString());
    Set<String> ids = new HashSet<>();
    Matcher id = Pattern.compile(" id=\"([^\"]+)\"").matcher(page);
    while (id.find()) {
      assertTrue(ids.add(id.group(1)), id.group(1) + " twice");
    }
    Matcher use = Pattern.compile("url\\(#([^)]+)\\)|href=\"#([^\"]+)\"").matcher(page);
    while (use.find()) {
      String name = use.group(1) != null ? use.group(1) : use.group(2);
      assertTrue(ids.contains(name), name + " is used and not there");
    }
  }

  @Test
  void scaledPage_saysTheResultInASentence() {
    String page = page(true, "small.png");
    assertTrue(
        markup(page)
            .contains(
                "On this die of 0.06400 \u00d7 0.04800\u00a0mm, 1 memory array covers"
                    + " 0.000320\u00a0mm\u00b2 (10.4\u00a0%), logic 0.000448\u00a0mm\u00b2"
                    + " (14.6\u00a0%) and the pad ring 0.00154\u00a0mm\u00b2 (50.0\u00a0%);"
                    + " 0.000768\u00a0mm\u00b2 (25.0\u00a0%) is empty."),
        page.substring(page.indexOf("<header>"), page.indexOf("</header>")));
    // Twice the relative uncertainty of the pitch, 0.01 / 2, since an area is a product of two
    // lengths with one common scale (JCGM 100:2008, 5.1.6 and 5.2.2).
    assertTrue(page.contains("It adds 1.0\u00a0% to the standard uncertainty of every area."));
    assertTrue(page.contains("<html lang=\"en\">"));
    assertTrue(page.contains("prefers-color-scheme: dark"));
    assertTrue(page.contains("@media print"));
    assertTrue(page.contains("alt=\"Photograph of the die with 4 regions outlined"));
    assertTrue(page.contains("ydrofluoric acid"));
  }

  @Test
  void pageWithoutScale_refusesAreas_andSaysTheInferredRange() {
    String page = page(false, "small.png");
    assertTrue(page.contains("Areas in mm\u00b2 are refused"));
    assertTrue(page.contains("between 1.0 and 4.0\u00a0\u00b5m/px (The row height fits)"));
    assertTrue(page.contains("80 px\u00b2"));
    assertFalse(
        Pattern.compile("[0-9]\\s*\u00a0?mm\u00b2").matcher(markup(page)).find(), "an area");
  }
}
