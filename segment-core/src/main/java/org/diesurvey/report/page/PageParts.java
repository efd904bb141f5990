package org.diesurvey.report.page;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.stream.Collectors;

/**
 * The fixed parts of the page: styles, the viewer library, our own program and the bare bones of
 * the workplace that the program fills.
 */
public final class PageParts {
  private static final String VIEWER = "/META-INF/resources/webjars/leaflet/1.9.4/dist/leaflet";

  /** What must run for the page to be able to start again without what the browser kept. */
  private static final List<String> GROUND = List.of("data", "keeping");

  /** Our program, in the order of use: each file uses only names of those before it. */
  private static final List<String> PROGRAM =
      List.of(
          "geometry",
          "clip",
          "frame",
          "words",
          "coverage",
          "store",
          "pyramid",
          "edges",
          "viewer",
          "picture",
          "hatches",
          "shapes",
          "legend",
          "scalebar",
          "table",
          "region-table",
          "reasons",
          "details",
          "rulers",
          "reshape",
          "handles",
          "draw",
          "correction",
          "changes",
          "save",
          "picture-file",
          "keys",
          "start");

  /** The same for the page of a comparison. */
  private static final List<String> COMPARISON =
      List.of(
          "words",
          "compare/frame",
          "viewer",
          "compare/picture",
          "compare/views",
          "scalebar",
          "compare/marks",
          "table",
          "compare/change-table",
          "compare/legend",
          "compare/keys",
          "compare/start");

  private static final String START = "(() => {\n\"use strict\";\ntry {\n";

  /** Corrections that the program cannot bear are set aside, and the page starts without them. */
  private static final String OR_WITHOUT_KEPT =
      """
      } catch (fault) {
        if (!Keeping.setAside()) {
          throw fault;
        }
        console.warn(fault);
        location.reload();
      }
      """;

  /** Where the program cannot run, the page is read without it. */
  private static final String END =
      """
      } catch (fault) {
        document.documentElement.classList.remove("live");
        document.getElementById("desk").hidden = true;
        console.error(fault);
      }
      })();
      """;

  private PageParts() {}

  /** Styles of the viewer library and the page; nothing in them refers to another file. */
  static String styles() {
    // The library's pictures belong to controls that the page does not use.
    String viewer =
        resource(VIEWER + ".css")
            .replaceAll("(?s)/\\*.*?\\*/", "")
            .replaceAll("[\\w-]+\\s*:[^;{}]*url\\([^)]*\\)[^;{}]*;?", "");
    return viewer + resource("page.css") + resource("desk.css");
  }

  /** The viewer library, unchanged: Leaflet 1.9.4, BSD-2-Clause. */
  static String viewer() {
    return resource(VIEWER + ".js");
  }

  /** The library for areas of outlines, unchanged. */
  static String areas() {
    return resource("library/polygon-clipping.min.js");
  }

  public static String comparisonStyles() {
    return styles() + resource("compare.css");
  }

  static String comparisonProgram() {
    return START + text(COMPARISON) + END;
  }

  static String comparisonDesk() {
    return resource("compare.html");
  }

  /** Our program, with the library for areas ahead of it: polygon-clipping 0.15.7, MIT. */
  public static String program() {
    return resource("library/polygon-clipping.min.js")
        + START
        + text(GROUND)
        + "try {\n"
        + text(PROGRAM)
        + OR_WITHOUT_KEPT
        + END;
  }

  private static String text(List<String> parts) {
    return parts.stream()
        .map(name -> "// " + name + "\n" + resource("script/" + name + ".js"))
        .collect(Collectors.joining("\n"));
  }

  static String desk() {
    return resource("desk.html");
  }

  public static String cautions() {
    return resource("cautions.html");
  }

  private static String resource(String name) {
    try (var in = PageParts.class.getResourceAsStream(name)) {
      if (in == null) {
        throw new IllegalStateException("the page needs " + name + ", which is not on the path");
      }
      // Browsers read every line end as one line feed before they take the hash of a part.
      return new String(in.readAllBytes(), StandardCharsets.UTF_8).replace("\r\n", "\n");
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
