package org.diesurvey.vision;

import nu.pattern.OpenCV;
import org.opencv.core.Core;

/** Loads the native half of OpenCV once, single threaded: parallelism is over bands, in Java. */
public final class NativeLibrary {
  private NativeLibrary() {}

  static {
    OpenCV.loadLocally();
    Core.setNumThreads(1);
  }

  /** Returns once the library is loaded. */
  static void ensureLoaded() {
    // The static initialiser has run by the time this method is entered.
  }

  /** Begins to load the library in the background, so that a photograph can be read meanwhile. */
  public static void loadAhead() {
    Thread t = new Thread(NativeLibrary::ensureLoaded, "native library");
    t.setDaemon(true);
    t.start();
  }
}
