package org.diesurvey.inspection;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.IntStream;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.photo.JpegCompression;
import org.diesurvey.photo.Levels;
import org.diesurvey.photo.PhotoInfo;
import org.diesurvey.photo.PixelSource;
import org.diesurvey.photo.Reading;
import org.diesurvey.preparation.DieLocation;
import org.diesurvey.preparation.PreparedDie;
import org.diesurvey.raster.Axis;
import org.diesurvey.raster.GrayRaster;

/** Tells what a photograph can carry, before any survey. */
public final class PhotoInspector {
  /** Cells of the focus map along the longer side. */
  private static final int FOCUS_CELLS = 16;

  private PhotoInspector() {}

  /**
   * Looks at the whole photograph.
   *
   * @throws org.diesurvey.DieInputException PHOTO_WITHOUT_CONTENT if it is black, white or of one
   *     flat tone
   */
  public static Inspection inspect(DiePhoto photo, InspectionSettings settings) {
    photo.requireContent();
    return inspect(
        photo.info(),
        photo.reading(),
        photo.levels(),
        photo.pixels(),
        photo.jpegCompression(),
        PreparedDie.locate(photo.pixels()),
        settings);
  }

  static Inspection inspect(
      PhotoInfo info,
      Reading reading,
      Levels levels,
      PixelSource pixels,
      Optional<JpegCompression> jpeg,
      DieLocation frame,
      InspectionSettings settings) {
    BandScan scan = BandScan.of(pixels, frame);
    LightMeter light = LightMeter.of(scan.reduced(), scan.factor(), frame);
    Windows windows = Windows.of(pixels, frame, FOCUS_CELLS);
    Noise noise = windows.noise();
    Resolution resolution =
        windows.resolution(1 / (Math.pow(2, levels.bits()) - 1) * levels.gain());
    Inspection found =
        new Inspection(
            new Inspection.Subject(
                info,
                reading,
                levels,
                settings.scale(),
                new DieFound(
                    frame.edgeFound(),
                    frame.corners(),
                    frame.rotationDeg(),
                    frame.widthPx(),
                    frame.heightPx())),
            new Inspection.Capture(
                windows.focus(noise),
                scan.exposure(),
                new LightFallOff(light.fallOff(), frame.edgeFound()),
                noise),
            new Inspection.Artefacts(
                stitching(scan, frame, pixels),
                new Compression(jpeg, scan.blockGrid().ratio()),
                ContaminationMeter.dirt(scan.reduced(), scan.factor(), frame, light)),
            new Inspection.Detail(
                resolution,
                settings.aperture().isPresent()
                    ? Optional.of(
                        Optics.of(
                            settings.aperture().getAsDouble(),
                            settings.wavelengthNm(),
                            settings.scale()))
                    : Optional.empty(),
                settings.nodeNm().isPresent()
                    ? Optional.of(
                        NodeJudge.judge(settings.nodeNm().getAsDouble(), settings, resolution))
                    : Optional.empty()),
            List.of());
    return found.withFindings(Findings.of(found));
  }

  private static Stitching stitching(BandScan scan, DieLocation frame, PixelSource pixels) {
    boolean judged = Math.abs(frame.rotationDeg()) >= SeamFinder.UPRIGHT_DEG;
    List<Seam> seams =
        judged
            ? java.util.stream.Stream.concat(
                    SeamFinder.find(scan.columns(), Axis.Y).stream(),
                    SeamFinder.find(scan.rows(), Axis.X).stream())
                .toList()
            : List.of();
    return new Stitching(judged, seams, RepeatFinder.find(pixels));
  }

  /** The windows of the grid that lie on the die, all held: at most 256 of 128 x 128 px. */
  private record Windows(FieldGrid grid, List<Optional<GrayRaster>> rasters) {
    static Windows of(PixelSource pixels, DieLocation frame, int longCells) {
      FieldGrid grid = FieldGrid.over(pixels, longCells);
      return new Windows(
          grid,
          IntStream.range(0, grid.count())
              .parallel()
              .mapToObj(
                  c ->
                      grid.onDie(c, frame)
                          ? Optional.of(grid.read(pixels, c))
                          : Optional.<GrayRaster>empty())
              .toList());
    }

    Noise noise() {
      NoiseMeter meter = new NoiseMeter();
      rasters.stream().flatMap(Optional::stream).forEach(meter::add);
      return meter.noise();
    }

    Resolution resolution(double level) {
      ResolutionMeter meter = new ResolutionMeter(grid.sidePx());
      rasters.stream().flatMap(Optional::stream).forEach(meter::add);
      return meter.resolution(level);
    }

    FocusMap focus(Noise noise) {
      List<OptionalDouble> blur =
          rasters.stream()
              .parallel()
              .map(
                  r ->
                      r.isPresent()
                          ? BlurMeter.blurPx(r.get(), noise.sigma())
                          : OptionalDouble.empty())
              .toList();
      return FocusJudge.judged(grid.columns(), grid.rows(), blur);
    }
  }
}
