package org.diesurvey.cli;

import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.diesurvey.synthetic.DieDrawing;
import org.diesurvey.synthetic.DieFiles;
import org.diesurvey.synthetic.DrawOptions;
import org.diesurvey.synthetic.DrawnDie;
import org.diesurvey.synthetic.LayoutLibrary;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** Draws dies with known truth. */
@Command(
    name = "draw",
    description = {
      "Draws invented dies with known truth: a photograph, its label maps and a truth file with"
          + " every block, pad, bit and gate.",
      ""
    },
    sortOptions = false,
    footer = {
      "",
      "The same seed and options give the same bytes. Files: die-<seed>.png (or .jpg, .tif),"
          + " die-<seed>_labels.png (0 off-die, 1 memory array, 2 hard macro, 3 logic, 4 pad ring,"
          + " 255 not scored), die-<seed>_surface.png, die-<seed>.json.",
      "",
      "Example:",
      "  diesurvey draw --seed 7 --um-per-px 0.5 --node 130 --count 3 --out drawn"
    })
final class DrawCommand implements Callable<Integer> {
  @Option(
      names = "--seed",
      required = true,
      paramLabel = "N",
      description = "Seed of the first die.")
  private long seed;

  @Option(
      names = "--count",
      paramLabel = "K",
      defaultValue = "1",
      description = "How many dies, with the seeds N, N+1, ...; ${DEFAULT-VALUE} by default.")
  private int count;

  @Option(
      names = "--um-per-px",
      paramLabel = "V",
      description = "Pixel pitch, 0.05 to 7 um/px; drawn at random by default.")
  private Double umPerPx;

  @Option(
      names = "--node",
      paramLabel = "NM",
      description = "Process node, 20 to 2000 nm; drawn at random from 28 to 350 by default.")
  private Double nodeNm;

  @Option(
      names = "--megapixels",
      paramLabel = "M",
      defaultValue = "12",
      description = "Largest photograph, 0.2 to 200 MP; ${DEFAULT-VALUE} by default.")
  private double megapixels;

  @Option(
      names = "--severity",
      paramLabel = "S",
      defaultValue = "1",
      description =
          "Strength of uneven light, residue, blur and noise: 0 none, 1 ordinary, 1.5 bad.")
  private double severity;

  @Option(
      names = "--framing",
      paramLabel = "any|whole_die|field",
      defaultValue = "any",
      description = "The whole die with background, or a field inside it.")
  private DrawOptions.Framing framing;

  @Option(
      names = "--wide",
      description =
          "Draw from a wider world: bare ground, fill, arrays of large devices, pads without I/O"
              + " cells, 0.05 to 7 um/px.")
  private boolean wide;

  @Mixin private LayoutOptions layouts;

  @Option(
      names = "--format",
      paramLabel = "png|jpg|tif",
      defaultValue = "png",
      description = "File format of the photograph; ${DEFAULT-VALUE} by default.")
  private DieFiles.Format format;

  @Option(
      names = "--out",
      required = true,
      paramLabel = "DIR",
      description = "Folder for the files; made if it is not there.")
  private Path out;

  @Option(names = "--quiet", description = "Do not list the photographs.")
  private boolean quiet;

  private final Diesurvey root;

  DrawCommand(Diesurvey root) {
    this.root = root;
  }

  @Override
  public Integer call() {
    DrawOptions options = options();
    if (count < 1 || count > 100_000) {
      throw new WrongOption("--count", "must be from 1 to 100000, was " + count);
    }
    Optional<LayoutLibrary> library = layouts.library();
    for (long s = seed; s < seed + count; s++) {
      DrawnFiles.require(out, "die-" + s, format);
    }
    SurveyFolders.prepare(out);
    for (long s = seed; s < seed + count; s++) {
      DrawnDie die = DieDrawing.draw(s, options, library);
      Path photo = DrawnFiles.write(die, out, "die-" + s, format);
      if (!quiet) {
        root.terminal().result(photo.toString());
      }
    }
    return ExitCode.DONE;
  }

  private DrawOptions options() {
    if (nodeNm != null && !(nodeNm >= 20 && nodeNm <= 2000)) {
      throw new WrongOption("--node", "must be a process node from 20 to 2000 nm, was " + nodeNm);
    }
    if (umPerPx != null && !(umPerPx >= 0.05 && umPerPx <= 7)) {
      throw new WrongOption("--um-per-px", "must be from 0.05 to 7 um/px, was " + umPerPx);
    }
    if (!(megapixels >= 0.2 && megapixels <= 200)) {
      throw new WrongOption("--megapixels", "must be from 0.2 to 200 MP, was " + megapixels);
    }
    if (!(severity >= 0 && severity <= 1.5)) {
      throw new WrongOption("--severity", "must be from 0 to 1.5, was " + severity);
    }
    DrawOptions options =
        DrawOptions.defaults()
            .withMaxMegapixels(megapixels)
            .withSeverity(severity)
            .withFraming(framing)
            .withStyle(wide ? DrawOptions.Style.WIDE : DrawOptions.Style.ANY);
    if (umPerPx != null) {
      options = options.withUmPerPx(umPerPx);
    }
    return nodeNm == null ? options : options.withNodes(nodeNm, nodeNm);
  }
}
