package org.diesurvey.cli;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.comparison.ComparisonScores.TrueChange;
import org.diesurvey.comparison.document.ChangeKind;
import org.diesurvey.comparison.registration.ComparisonSide;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.pipeline.DieSegmenter;
import org.diesurvey.pipeline.ScaleInput;
import org.diesurvey.survey.Point;
import org.diesurvey.synthetic.DieFiles;
import org.diesurvey.synthetic.RectUm;
import org.diesurvey.synthetic.RevisionChange;
import org.diesurvey.synthetic.RevisionFiles;
import org.diesurvey.synthetic.RevisionPair;
import org.diesurvey.synthetic.RevisionTruth;

/** A drawn pair of revisions, surveyed from its photographs, with the changes that were drawn. */
record DrawnRevisions(ComparisonSide first, ComparisonSide second, List<TrueChange> truth) {

  /** Writes the photographs of a pair for as long as it is used. */
  static void use(RevisionPair pair, DieSegmenter segmenter, Consumer<DrawnRevisions> use) {
    try {
      Path folder = Files.createTempDirectory("diesurvey-pair-");
      try {
        RevisionFiles.write(pair, folder, "die", DieFiles.Format.PNG);
        try (DiePhoto a = DiePhoto.open(folder.resolve("die-a.png"));
            DiePhoto b = DiePhoto.open(folder.resolve("die-b.png"))) {
          use.accept(
              new DrawnRevisions(
                  side(segmenter, a, pair.truth().firstStatedUmPerPx()),
                  side(segmenter, b, pair.truth().secondStatedUmPerPx()),
                  changes(pair.truth())));
        }
      } finally {
        try (Stream<Path> files = Files.list(folder)) {
          for (Path p : files.toList()) {
            Files.delete(p);
          }
        }
        Files.delete(folder);
      }
    } catch (IOException e) {
      throw new UncheckedIOException("the drawn pair cannot be written", e);
    }
  }

  private static ComparisonSide side(DieSegmenter segmenter, DiePhoto photo, double pitchUm) {
    ScaleInput scale = new ScaleInput.Known(Calibration.ofPixelPitch(pitchUm, 0));
    return new ComparisonSide(segmenter.survey(photo, scale), photo);
  }

  static List<TrueChange> changes(RevisionTruth truth) {
    return truth.changes().stream().map(c -> change(c, truth.firstDieUm().heightUm())).toList();
  }

  private static TrueChange change(RevisionChange c, double heightUm) {
    List<List<Double>> boxes = new ArrayList<>();
    Stream.concat(c.beforeUm().stream(), c.afterUm().stream())
        .forEach(r -> boxes.add(box(r, heightUm)));
    Optional<Point> moved =
        c.kind() == RevisionChange.Kind.MOVED
            ? Optional.of(new Point(c.movedXUm(), -c.movedYUm()))
            : Optional.empty();
    return new TrueChange(ChangeKind.valueOf(c.kind().name()), boxes, moved);
  }

  private static List<Double> box(RectUm r, double heightUm) {
    return List.of(
        r.xUm(), heightUm - r.yUm() - r.heightUm(), r.xUm() + r.widthUm(), heightUm - r.yUm());
  }
}
