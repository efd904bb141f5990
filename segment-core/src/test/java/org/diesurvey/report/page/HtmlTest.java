package org.diesurvey.report.page;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

class HtmlTest {

  @Test
  void fiveCharacters_areEscaped() {
    // The five that WHATWG HTML, 13.1.2 and 13.1.4, makes significant in text and quoted values.
    assertEquals(
        "&lt;a b=&#39;c&#39; d=&quot;e&quot;&gt; &amp;amp;",
        Html.escape("<a b='c' d=\"e\"> &amp;"));
    assertEquals("80 \u00b5m \ud83d\ude00", Html.escape("80 \u00b5m \ud83d\ude00"));
  }

  @Test
  void hashOfAStyle_isTheOneOfTheStandard() {
    // SHA-256 of the empty text, FIPS 180-4 test vector e3b0c442...b855, in Base64.
    assertEquals("'sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU='", Html.hashSource(""));
  }
}
