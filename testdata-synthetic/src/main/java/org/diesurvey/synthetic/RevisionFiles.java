package org.diesurvey.synthetic;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;

/** Writes a pair of drawn revisions: both dies with their files, and what differs. */
public final class RevisionFiles {
  private static final ObjectMapper JSON = new ObjectMapper();

  private RevisionFiles() {}

  /**
   * Writes {@code name-a} and {@code name-b} as {@link DieFiles} does, and {@code name-pair.json}.
   *
   * @param pair what to write
   * @param folder made if absent
   * @param name start of the file names
   * @param format of the photographs
   * @return path of the truth file
   * @throws IOException if a file cannot be written
   */
  public static Path write(RevisionPair pair, Path folder, String name, DieFiles.Format format)
      throws IOException {
    Path first = DieFiles.write(pair.first(), folder, name + "-a", format);
    Path second = DieFiles.write(pair.second(), folder, name + "-b", format);
    Path truth = folder.resolve(name + "-pair.json");
    ObjectNode root = json(pair.truth());
    root.put("first", first.getFileName().toString());
    root.put("second", second.getFileName().toString());
    Files.writeString(truth, JSON.writerWithDefaultPrettyPrinter().writeValueAsString(root) + "\n");
    return truth;
  }

  private static ObjectNode json(RevisionTruth t) {
    ObjectNode root = JSON.createObjectNode();
    root.put("seed", t.seed());
    root.put("same_chip", t.sameChip());
    root.put("orientation", t.orientation());
    root.put("first_stated_um_per_px", t.firstStatedUmPerPx());
    root.put("second_stated_um_per_px", t.secondStatedUmPerPx());
    root.set("first_die_um", rect(t.firstDieUm()));
    root.set("second_die_um", rect(t.secondDieUm()));
    t.grownUm().ifPresent(r -> root.set("grown_um", rect(r)));
    root.put(
        "note",
        "rectangles are x, y, width, height in um in the die frame of the first die, origin at its"
            + " upper left corner, y down; those ending in _in_second in the frame of the second"
            + " die as it lies in its photograph; orientation: 1 mirrored along x, 2 along y, 4 x"
            + " and y exchanged afterwards");
    ArrayNode changes = root.putArray("changes");
    for (RevisionChange c : t.changes()) {
      ObjectNode node = changes.addObject();
      node.put("kind", c.kind().name().toLowerCase(Locale.ROOT));
      node.put("description", c.description());
      c.beforeUm().ifPresent(r -> node.set("before_um", rect(r)));
      c.afterUm().ifPresent(r -> node.set("after_um", rect(r)));
      c.afterUm().ifPresent(r -> node.set("after_um_in_second", rect(t.inSecond(r))));
      node.putArray("moved_um").add(c.movedXUm()).add(c.movedYUm());
    }
    return root;
  }

  private static ArrayNode rect(RectUm r) {
    return JSON.createArrayNode().add(r.xUm()).add(r.yUm()).add(r.widthUm()).add(r.heightUm());
  }
}
