package org.diesurvey.cli;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeSet;
import java.util.concurrent.Callable;
import org.diesurvey.files.OwnFiles;
import org.diesurvey.files.ReadFiles;
import org.diesurvey.interchange.layout.LayerMask;
import org.diesurvey.interchange.layout.LayerMaskSettings;
import org.diesurvey.interchange.layout.LayoutBit;
import org.diesurvey.interchange.layout.LayoutLayers;
import org.diesurvey.interchange.layout.LayoutWindow;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Makes a layer mask of a block of a layout, to train with. */
@Command(
    name = "masks",
    description = {
      "Makes a layer mask of one block of a layout (GDSII stream, also packed with gzip): a PNG"
          + " whose bits are the layers that a delayered die shows, and a record of what the block"
          + " is. Drawn dies are filled with such blocks, so that training learns from layouts that"
          + " you hold.",
      ""
    },
    sortOptions = false,
    footer = {
      "",
      "The layer map is a table in CSV, one row for each layer; bits: diffusion, polysilicon,",
      "n-well, contact, thick-oxide, p-implant:",
      "  layer,datatype,bit",
      "  65,20,diffusion",
      "  66,20,polysilicon",
      "",
      "Values of the bits in a pixel: 1 diffusion, 2 polysilicon, 4 n-well, 8 contact,",
      "16 thick oxide, 32 p implant. A bit is set where the layer covers half of the pixel or"
          + " more.",
      "Structures that are placed, arrays, mirrored and turned ones and paths are drawn as they",
      "lie; texts are left out. The same layout and options give the same bytes.",
      "",
      "Examples:",
      "  diesurvey masks sram.gds --cell SRAM_1K --layers layers.csv --class memory \\",
      "      --technology 'our 130 nm' --bit-cell BITCELL --out masks/our130",
      "  diesurvey masks chip.gds.gz --cell CORE --window 0,0,500,500 --layers layers.csv \\",
      "      --class logic --technology 'our 130 nm' --name core-corner --out masks/our130"
    },
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:mask and record were written",
      "2:wrong call or unusable layout, nothing was written",
      "70:a fault of this program"
    })
final class MasksCommand implements Callable<Integer> {
  @Parameters(paramLabel = "LAYOUT", description = "A GDSII stream file; 1 GiB at most.")
  private Path layout;

  @Option(
      names = "--cell",
      paramLabel = "NAME",
      description = "Structure to draw; by default the only top structure.")
  private String cell;

  @Option(
      names = "--layers",
      required = true,
      paramLabel = "FILE",
      description = "The layer map, see below.")
  private Path layers;

  @Option(
      names = "--class",
      required = true,
      paramLabel = "CLASS",
      description = "What the block is: memory, rom, macro, logic, io or fill.")
  private String blockClass;

  @Option(
      names = "--technology",
      required = true,
      paramLabel = "TEXT",
      description =
          "Name of the technology. Blocks of one name are mixed in one die, and left out together"
              + " when a model is tried on a technology that it has not seen.")
  private String technology;

  @Option(
      names = "--kind",
      paramLabel = "TEXT",
      defaultValue = "",
      description = "What the block is, in words, for example \"I/O row\" or \"PLL\".")
  private String kind;

  @Option(names = "--node", paramLabel = "NM", description = "Process node, nm.")
  private Double nodeNm;

  @Option(
      names = "--um-per-px",
      paramLabel = "V",
      defaultValue = "0.1",
      description =
          "Side of a pixel, 0.01 to 10 um; ${DEFAULT-VALUE} by default. Shapes under half of it"
              + " vanish.")
  private double umPerPx;

  @Option(
      names = "--bit-cell",
      paramLabel = "NAME",
      description =
          "Structure that holds one bit; may be given several times. Where its copies lie close"
              + " together, the record notes a bit-cell array.")
  private List<String> bitCells = List.of();

  @Option(
      names = "--window",
      paramLabel = "X0,Y0,X1,Y1",
      split = ",",
      description = "Part of the structure, um in its own coordinates; by default all of it.")
  private List<Double> window = List.of();

  @Option(
      names = "--name",
      paramLabel = "NAME",
      description = "Name of the files, without extension; by default that of the structure.")
  private String name;

  @Option(
      names = "--out",
      required = true,
      paramLabel = "DIR",
      description = "Folder for NAME.png and NAME.json; made if it is not there.")
  private Path out;

  @Option(names = "--overwrite", description = "Replace a mask of this name.")
  private boolean overwrite;

  private final Diesurvey root;

  MasksCommand(Diesurvey root) {
    this.root = root;
  }

  @Override
  public Integer call() {
    LayerMaskSettings settings = settings();
    if (name != null && !name.matches("[A-Za-z0-9_][A-Za-z0-9_.-]{0,99}")) {
      throw new WrongOption(
          "--name", "must be letters, digits, '_', '-' and '.', up to 100, was " + name);
    }
    LayerMask mask = LayerMask.of(layout, settings);
    String file = name == null ? fileName(mask.cell()) : name;
    SurveyFolders.prepare(out);
    write(mask, file);
    root.terminal().result(out.resolve(file + ".png").toString());
    root.terminal().remark(summary(mask));
    return ExitCode.DONE;
  }

  private LayerMaskSettings settings() {
    String lower = blockClass.toLowerCase(Locale.ROOT);
    if (!LayerMaskSettings.CLASSES.contains(lower)) {
      throw new WrongOption(
          "--class",
          "must be one of "
              + String.join(", ", new TreeSet<>(LayerMaskSettings.CLASSES))
              + ", was "
              + blockClass);
    }
    if (!(umPerPx >= 0.01 && umPerPx <= 10)) {
      throw new WrongOption("--um-per-px", "must be from 0.01 to 10 um/px, was " + umPerPx);
    }
    if (nodeNm != null && !(nodeNm >= 1 && nodeNm <= 20_000)) {
      throw new WrongOption("--node", "must be a process node from 1 to 20000 nm, was " + nodeNm);
    }
    if (technology.isBlank()) {
      throw new WrongOption("--technology", "must be a name");
    }
    return new LayerMaskSettings(
        Optional.ofNullable(cell),
        LayoutLayers.read(layers),
        umPerPx,
        lower,
        kind.strip(),
        technology.strip(),
        nodeNm == null ? OptionalDouble.empty() : OptionalDouble.of(nodeNm),
        bitCells,
        part());
  }

  private Optional<LayoutWindow> part() {
    if (window.isEmpty()) {
      return Optional.empty();
    }
    boolean inside =
        window.size() == 4
            && window.stream().allMatch(v -> Math.abs(v) < 1e9)
            && window.get(2) > window.get(0)
            && window.get(3) > window.get(1);
    if (!inside) {
      throw new WrongOption(
          "--window", "must be four numbers X0,Y0,X1,Y1 in um with X1 > X0 and Y1 > Y0");
    }
    return Optional.of(
        new LayoutWindow(window.get(0), window.get(1), window.get(2), window.get(3)));
  }

  private static String fileName(String cell) {
    String plain = cell.replaceAll("[^A-Za-z0-9_.-]", "_").replaceFirst("^[.-]", "_");
    return plain.substring(0, Math.min(100, plain.length()));
  }

  /** Both files or none. */
  private void write(LayerMask mask, String file) {
    Path png = out.resolve(file + ".png");
    Path json = out.resolve(file + ".json");
    if (!overwrite && (Files.exists(png) || Files.exists(json))) {
      throw new WrongOption(
          "--out", "holds a mask " + file + " already; add --overwrite, or give another --name");
    }
    List<Path> read = layers == null ? List.of(layout) : List.of(layout, layers);
    OwnFiles.of(json, ReadFiles.of(read))
        .write(Map.of(file + ".png", mask.png(), file + ".json", mask.json(file)));
  }

  private static String summary(LayerMask m) {
    StringBuilder s = new StringBuilder();
    s.append(String.format(Locale.ROOT, "%s: %.1f x %.1f um", m.cell(), m.widthUm(), m.heightUm()));
    for (LayoutBit b : LayoutBit.values()) {
      double share = m.areaUm2(b) / (m.widthUm() * m.heightUm());
      if (share > 0) {
        s.append(String.format(Locale.ROOT, ", %s %.1f %%", b.word(), 100 * share));
      }
    }
    if (m.bitCells() > 0) {
      s.append(String.format(Locale.ROOT, "; %d bit cells in %d arrays", m.bitCells(), m.arrays()));
    }
    return s.toString();
  }
}
