package org.diesurvey.report;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.diesurvey.report.page.PageParts;
import org.junit.jupiter.api.Test;

/** The library that stands with the sources, since no Maven artifact carries it. */
class BundledLibraryTest {
  private static final Path PACKAGE =
      Path.of("src/test/browser/node_modules/polygon-clipping/dist/polygon-clipping.umd.min.js");

  @Test
  void libraryForAreas_isTheFileOfItsPackage() throws IOException {
    assumeTrue(
        Files.isRegularFile(PACKAGE), "skipped: run npm ci in segment-core/src/test/browser first");
    try (var ours =
        BundledLibraryTest.class.getResourceAsStream("page/library/polygon-clipping.min.js")) {
      assertArrayEquals(Files.readAllBytes(PACKAGE), ours.readAllBytes());
    }
  }

  @Test
  void program_beginsWithIt() {
    assertTrue(PageParts.program().substring(0, 400).contains("polygonClipping"));
  }
}
