package org.diesurvey.pipeline;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import javax.imageio.ImageIO;
import org.diesurvey.classification.DieClass;
import org.diesurvey.classification.UnclearReason;
import org.diesurvey.classification.model.TileClassifier;
import org.diesurvey.features.FeatureTable;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.preparation.DieLocation;
import org.diesurvey.preparation.PreparedDie;
import org.diesurvey.raster.PixelPoint;
import org.diesurvey.raster.PlaneMap;
import org.diesurvey.regions.DieRegion;
import org.diesurvey.regions.RegionTuning;
import org.diesurvey.synthetic.DieDrawing;
import org.diesurvey.synthetic.DieFiles;
import org.diesurvey.synthetic.DrawOptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.operation.union.UnaryUnionOp;

/** What surveys and the training of confidence share: both judge regions without what is hidden. */
class RegionChainTest {
  private static final double UM_PER_PX = 1;

  /** Diameter of a drop of residue, px. */
  private static final int DROP = 90;

  @TempDir Path folder;

  private Path photographWithADrop() throws IOException {
    DrawOptions clean =
        DrawOptions.defaults().withUmPerPx(UM_PER_PX).withMaxMegapixels(0.8).withSeverity(0);
    Path file = DieFiles.write(DieDrawing.draw(21, clean), folder, "d", DieFiles.Format.PNG);
    BufferedImage image = ImageIO.read(file.toFile());
    Graphics2D g = image.createGraphics();
    g.setColor(Color.WHITE);
    g.fillOval((image.getWidth() - DROP) / 2, (image.getHeight() - DROP) / 2, DROP, DROP);
    g.dispose();
    ImageIO.write(image, "png", file.toFile());
    return file;
  }

  @Test
  void whatIsHidden_isCutOutOfEveryClass() throws IOException {
    try (DiePhoto photo = DiePhoto.open(photographWithADrop())) {
      DieLocation frame = PreparedDie.locate(photo.pixels());
      TiledDie tiled = TiledDie.of(photo.pixels(), frame, UM_PER_PX, 8);
      TileClassifier classifier = TileClassifier.shipped();
      FeatureTable features = FeatureTable.extract(tiled.die(), tiled.grid());
      List<DieRegion> regions =
          RegionChain.of(
              classifier.classify(features, frame.realEdges()),
              features,
              classifier,
              ShownPart.of(tiled.die(), tiled.grid()),
              RegionTuning.DEFAULT);
      // The drawing and the preparation do not resample: one working pixel is one of the
      // photograph.
      PixelPoint middle =
          new PixelPoint(photo.pixels().width() / 2.0, photo.pixels().height() / 2.0);
      Geometry drop = drop(tiled, middle);
      Geometry shown =
          UnaryUnionOp.union(
              regions.stream()
                  .filter(r -> r.dieClass() != DieClass.UNCLEAR)
                  .<Geometry>map(DieRegion::outline)
                  .toList());
      assertTrue(shown.getArea() > 20 * drop.getArea(), "most of the die has a class");
      assertEquals(0, shown.intersection(drop).getArea(), 0.05 * drop.getArea());
      double hidden =
          regions.stream()
              .filter(r -> r.reason().equals(Optional.of(UnclearReason.DAMAGED)))
              .mapToDouble(r -> r.outline().intersection(drop).getArea())
              .sum();
      assertEquals(drop.getArea(), hidden, 0.05 * drop.getArea());
    }
  }

  /** The drop in the frame of the upright die; one working pixel is one of the photograph. */
  private static Geometry drop(TiledDie tiled, PixelPoint middle) {
    PlaneMap toUpright = tiled.die().uprightToPhoto().inverse();
    Coordinate there =
        new Coordinate(toUpright.x(middle.x(), middle.y()), toUpright.y(middle.x(), middle.y()));
    return new GeometryFactory().createPoint(there).buffer(DROP / 2.0);
  }
}
