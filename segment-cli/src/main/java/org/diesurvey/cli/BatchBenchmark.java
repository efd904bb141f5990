package org.diesurvey.cli;

import java.io.ByteArrayOutputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.zip.CRC32;
import org.diesurvey.synthetic.DieDrawing;
import org.diesurvey.synthetic.DieFiles;
import org.diesurvey.synthetic.DrawOptions;

/**
 * Photographs per minute and peak memory of a batch, against one process for each photograph. A few
 * dies are drawn; each photograph is one of them with a remark of its own in the file, so that no
 * two have the same bytes.
 */
final class BatchBenchmark {
  private static final int DRAWN = 20;
  private static final long SEED = 48;
  private static final int ALONE = 10;
  private static final int PNG_HEADER_BYTES = 33;
  private static final String PITCH = "1+-0.002";

  private final Terminal terminal;
  private final Path folder;
  private final int photos;
  private final int corrupt;
  private final double megapixels;
  private final List<String> model;

  /**
   * @param model words of the command line that name the model; none for the shipped one
   */
  BatchBenchmark(
      Terminal terminal,
      Path folder,
      int photos,
      int corrupt,
      double megapixels,
      List<String> model) {
    this.terminal = terminal;
    this.folder = folder;
    this.photos = photos;
    this.corrupt = corrupt;
    this.megapixels = megapixels;
    this.model = model;
  }

  void run() throws IOException, InterruptedException {
    Path run = Files.createTempDirectory(folder, "batch-");
    Path given = photographs(run);
    terminal.result(
        String.format(
            Locale.ROOT,
            "%d photographs of at most %.2g MP, %d of them corrupt, %d processors",
            photos,
            megapixels,
            corrupt,
            Runtime.getRuntime().availableProcessors()));
    Columns table = new Columns();
    table.row("run", "photographs", "wall s", "per minute", "peak resident MiB");
    for (String way : new String[] {"--no-isolate", "--isolate"}) {
      Path archive = run.resolve("archive" + way);
      List<String> words = new ArrayList<>(FreshProcess.thisProgram());
      words.addAll(List.of("batch", given.toString(), "--archive", archive.toString()));
      words.addAll(List.of("--um-per-px", PITCH, "--quiet", way));
      words.addAll(model);
      row(table, "batch " + way, photos, FreshProcess.run(words, corrupt > 0 ? 1 : 0));
    }
    double seconds = 0;
    long peak = 0;
    for (int i = 0; i < Math.min(ALONE, photos); i++) {
      List<String> words = new ArrayList<>(FreshProcess.thisProgram());
      words.addAll(List.of("segment", drawn().resolve(name(i)).toString(), "--quiet"));
      words.addAll(List.of("--um-per-px", PITCH, "--out", run.resolve("surveys").toString()));
      words.addAll(model);
      FreshProcess.Result r = FreshProcess.run(words, 0);
      seconds += r.wallSeconds();
      peak = Math.max(peak, r.peakResidentKib().orElse(0));
    }
    row(
        table,
        "segment, a process each",
        Math.min(ALONE, photos),
        new FreshProcess.Result("", seconds, java.util.OptionalLong.of(peak)));
    table.lines(2).forEach(terminal::result);
    terminal.result("  files: " + run);
    terminal.result("  Of batch --isolate the memory is that of the process without its workers.");
  }

  private static void row(Columns table, String run, int photos, FreshProcess.Result r) {
    table.row(
        run,
        Integer.toString(photos),
        Figures.fixed(r.wallSeconds(), 1),
        Figures.fixed(60 * photos / r.wallSeconds(), 1),
        FreshProcess.mib(r.peakResidentKib()));
  }

  private static String name(int i) {
    return String.format(Locale.ROOT, "die-%02d.png", i % DRAWN);
  }

  private Path drawn() {
    return folder.resolve(String.format(Locale.ROOT, "dies-%.2f-mp", megapixels));
  }

  private Path photographs(Path run) throws IOException {
    DrawOptions options = DrawOptions.defaults().withUmPerPx(1).withMaxMegapixels(megapixels);
    for (int i = 0; i < DRAWN; i++) {
      if (!Files.exists(drawn().resolve(name(i)))) {
        String stem = name(i).replace(".png", "");
        DieFiles.write(
            DieDrawing.draw(SEED + i, options),
            Files.createDirectories(drawn()),
            stem,
            DieFiles.Format.PNG);
      }
    }
    Path given = Files.createDirectory(run.resolve("photographs"));
    int bad = 0;
    for (int i = 0; i < photos; i++) {
      byte[] photo = remarked(Files.readAllBytes(drawn().resolve(name(i))), "number " + i);
      if ((long) (i + 1) * corrupt / photos > bad) {
        photo = corrupted(photo, bad);
        bad++;
      }
      Files.write(given.resolve(String.format(Locale.ROOT, "photo-%06d.png", i)), photo);
    }
    return given;
  }

  /** A PNG with a text chunk after its header (ISO/IEC 15948, 11.3.4.3). */
  private static byte[] remarked(byte[] png, String remark) throws IOException {
    byte[] chunk = ("tEXtComment\0" + remark).getBytes(StandardCharsets.ISO_8859_1);
    CRC32 sum = new CRC32();
    sum.update(chunk);
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    DataOutputStream out = new DataOutputStream(bytes);
    out.write(png, 0, PNG_HEADER_BYTES);
    out.writeInt(chunk.length - 4);
    out.write(chunk);
    out.writeInt((int) sum.getValue());
    out.write(png, PNG_HEADER_BYTES, png.length - PNG_HEADER_BYTES);
    return bytes.toByteArray();
  }

  /** By turns: cut off, bytes flipped, another type, empty, a header that promises 3600 MP. */
  static byte[] corrupted(byte[] png, int turn) {
    byte[] bad = png.clone();
    switch (turn % 5) {
      case 0 -> bad = Arrays.copyOf(png, png.length / 2);
      case 1 -> {
        for (int i = PNG_HEADER_BYTES + 100; i < bad.length; i += 97) {
          bad[i] ^= (byte) 0xff;
        }
      }
      case 2 -> bad = ("a letter, no picture " + turn).getBytes(StandardCharsets.UTF_8);
      case 3 -> bad = new byte[0];
      default -> {
        CRC32 sum = new CRC32();
        bad[18] = (byte) 0xea;
        bad[22] = (byte) 0xea;
        sum.update(bad, 12, 17);
        for (int i = 0; i < 4; i++) {
          bad[29 + i] = (byte) (sum.getValue() >> 8 * (3 - i));
        }
      }
    }
    return bad;
  }
}
