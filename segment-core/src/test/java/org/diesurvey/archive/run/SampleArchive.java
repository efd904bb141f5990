package org.diesurvey.archive.run;

import java.io.File;
import java.io.IOException;
import java.net.URL;
import java.net.URLClassLoader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.diesurvey.archive.BatchListener;
import org.diesurvey.archive.BatchPhoto;
import org.diesurvey.archive.PhotoLabels;
import org.diesurvey.archive.PhotoSurveyor;
import org.diesurvey.archive.pages.IndexPage;
import org.diesurvey.archive.store.ArchiveFolder;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.classification.DieClass;
import org.diesurvey.photo.PhotoInfo;
import org.diesurvey.pipeline.ScaleInput;
import org.diesurvey.quantity.Measured;
import org.diesurvey.quantity.MeasuredArea;
import org.diesurvey.survey.ClassTotal;
import org.diesurvey.survey.DieFrame;
import org.diesurvey.survey.Notice;
import org.diesurvey.survey.Point;
import org.diesurvey.survey.Preparation;
import org.diesurvey.survey.ScaleRecord;
import org.diesurvey.survey.Software;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.SurveyMethod;
import org.diesurvey.survey.json.SurveyJson;

/** Photographs that are only text, and a survey for them. */
public final class SampleArchive {
  public static final Instant MOMENT = Instant.parse("2026-01-31T12:00:00Z");

  private SampleArchive() {}

  /** A survey with 45 % memory on a die of 2 mm2, at a node of 90 nm. */
  public static Path survey(Path folder) throws IOException {
    Survey survey =
        new Survey(
            new PhotoInfo(
                "die.png", "1".repeat(64), 1000, "PNG", 4000, 2000, 8, 1, Optional.empty()),
            new SurveyMethod(
                new Software("Diesurvey", "0", "sample", "0".repeat(64)),
                1,
                java.util.OptionalDouble.of(90),
                8),
            new ScaleRecord(Optional.of(Calibration.ofPixelPitch(0.5, 0.002)), Optional.empty()),
            new DieFrame(
                true,
                List.of(
                    new Point(0, 2000), new Point(4000, 2000), new Point(4000, 0), new Point(0, 0)),
                0,
                Optional.of(new Measured(2, 0.01)),
                Optional.of(new Measured(1, 0.01)),
                Optional.of(new Measured(2, 0.02)),
                8e6),
            new Preparation(List.of(), 1, 1, Optional.empty(), List.of(), 0.01),
            List.of(),
            List.of(
                new ClassTotal(
                    DieClass.MEMORY_ARRAY,
                    Optional.empty(),
                    0,
                    Optional.of(MeasuredArea.split(new Measured(0.9, 0.01), 0.004)),
                    0.45)),
            List.of(new Notice("coarse-sampling", "A warning.", "A remedy.")),
            Optional.empty());
    return Files.write(folder.resolve("sample.json"), SurveyJson.write(survey, Optional.empty()));
  }

  public static List<BatchPhoto> photos(Path folder, int count) throws IOException {
    Files.createDirectories(folder);
    List<BatchPhoto> photos = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      Path file = folder.resolve(String.format(java.util.Locale.ROOT, "die-%03d.png", i));
      Files.writeString(file, "photograph " + i);
      photos.add(
          new BatchPhoto(
              file,
              ScaleInput.NONE,
              java.util.OptionalDouble.empty(),
              new PhotoLabels(
                  Optional.of("die \"" + i % 3 + "\", demo"),
                  Optional.of("A"),
                  Optional.empty(),
                  Optional.of("=1+1"))));
    }
    return photos;
  }

  /** The index of an archive of six photographs with 10, 20, ... 60 % memory. */
  public static String indexPage(Path folder) throws IOException {
    Path archive = folder.resolve("archive");
    PhotoSurveyor surveyor = new CopyingSurveyor(survey(folder), 0, "1");
    new BatchRun(archive, surveyor, 2, 1L << 30, MOMENT)
        .run(photos(folder.resolve("photos"), 6), BatchListener.SILENT);
    String database = "jdbc:sqlite:" + archive.resolve(ArchiveFolder.DATABASE);
    try (Connection c = DriverManager.getConnection(database);
        Statement s = c.createStatement()) {
      s.execute(
          "UPDATE class_total SET share = 0.1 * (1 + (SELECT CAST(substr(file_name, 7, 1) AS"
              + " INTEGER) FROM surveyed_photo v WHERE v.photo_id = class_total.photo_id)) WHERE"
              + " class = 'memory array'");
    } catch (SQLException e) {
      throw new IOException(e);
    }
    return IndexPage.html(archive);
  }

  /** Some runners of tests load them with a class loader of their own. */
  public static String classPath() {
    if (SampleArchive.class.getClassLoader() instanceof URLClassLoader loader) {
      return Arrays.stream(loader.getURLs())
          .map(URL::getPath)
          .collect(Collectors.joining(File.pathSeparator));
    }
    return System.getProperty("surefire.test.class.path", System.getProperty("java.class.path"));
  }
}
