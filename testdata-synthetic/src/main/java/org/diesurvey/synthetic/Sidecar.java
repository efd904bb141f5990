package org.diesurvey.synthetic;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Locale;

/** The truth as JSON, with the member names of the open-layout dies. */
final class Sidecar {
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final String[] CLASSES = {"off", "memory", "macro", "logic", "pad"};

  private Sidecar() {}

  static String json(DrawnDie die, String image, String name) {
    DieTruth t = die.truth();
    ObjectNode root = JSON.createObjectNode();
    root.put("image", image);
    root.put("labels", name + "_labels.png");
    root.put("surface", name + "_surface.png");
    root.put("width_px", die.widthPx());
    root.put("height_px", die.heightPx());
    root.put("um_per_px", t.umPerPx());
    root.put("rotation_deg", t.rotationDeg());
    root.put("technology", t.technology());
    root.put("node_nm", t.nodeNm());
    root.put("seed", t.seed());
    root.put("whole_die", t.wholeDie());
    root.putArray("die_um").add(t.dieWidthUm()).add(t.dieHeightUm());
    root.set("die_polygon_px", pixels(t, t.dieUm().corners()));
    UmToPx m = t.umToPx();
    ArrayNode map = root.putArray("um_to_px");
    map.addArray().add(m.xx()).add(m.xy()).add(m.x0());
    map.addArray().add(m.yx()).add(m.yy()).add(m.y0());
    root.put(
        "note",
        "px = um_to_px[:, :2] @ um + um_to_px[:, 2]; um origin is the die corner, y down; pixel"
            + " (0,0) covers 0..1");
    ObjectNode values = root.putObject("label_values");
    for (int i = 0; i < CLASSES.length; i++) {
      values.put(CLASSES[i], i);
    }
    values.put("unscored", SurfaceLabel.UNSCORED);
    areas(die, root.putObject("class_area_mm2"));
    root.put("bond_pads", t.bondPads());
    root.put("bits_total", t.bits());
    root.put("nand2_total", t.nand2Equivalents());
    root.set("bond_pad_centres_um", points(t.padCentresUm()));
    ArrayNode inventory = root.putArray("inventory");
    ArrayNode arrays = root.putArray("memory_arrays_inside_macros_um");
    for (BlockTruth b : t.blocks()) {
      inventory.add(block(t, b));
      for (RectUm r : b.arraysUm()) {
        arrays.add(rect(r));
      }
    }
    ObjectNode photo = JSON.valueToTree(t.optics());
    root.set("photo", photo);
    root.put("set", "drawn");
    try {
      return JSON.writerWithDefaultPrettyPrinter().writeValueAsString(root) + "\n";
    } catch (JsonProcessingException e) {
      throw new IllegalStateException(e);
    }
  }

  private static void areas(DrawnDie die, ObjectNode into) {
    long[] counts = new long[256];
    for (byte code : die.surface()) {
      counts[SurfaceLabel.scoring(code)]++;
    }
    double px = die.truth().umPerPx() * die.truth().umPerPx() / 1e6;
    for (int i = 0; i < CLASSES.length; i++) {
      into.put(CLASSES[i], counts[i] * px);
    }
    into.put("unscored", counts[SurfaceLabel.UNSCORED] * px);
  }

  private static ObjectNode block(DieTruth t, BlockTruth b) {
    ObjectNode node = JSON.createObjectNode();
    node.put("name", b.id());
    node.put("block", b.description());
    node.put("kind", CLASSES[b.surface()]);
    RectUm r = b.outlineUm();
    node.put("x", r.xUm());
    node.put("y", r.yUm());
    node.put("w", r.widthUm());
    node.put("h", r.heightUm());
    if (b.bits() > 0) {
      node.put("bits", b.bits());
      node.put(
          "bit_cell_um",
          String.format(Locale.ROOT, "%.4f x %.4f", b.bitCellWidthUm(), b.bitCellHeightUm()));
      node.put("turned", b.turned());
      ArrayNode arrays = node.putArray("arrays_um");
      b.arraysUm().forEach(a -> arrays.add(rect(a)));
    }
    if (b.nand2Equivalents() > 0) {
      node.put("nand2_equivalents", b.nand2Equivalents());
    }
    if (b.surface() == SurfaceLabel.PAD_RING) {
      node.put("pads", t.bondPads());
      node.set("hole_um", points(b.holesUm().get(0).corners()));
      node.set("hole_px", pixels(t, b.holesUm().get(0).corners()));
    } else if (!b.holesUm().isEmpty()) {
      ArrayNode holes = node.putArray("holes_um");
      b.holesUm().forEach(h -> holes.add(rect(h)));
    }
    node.set("polygon_um", points(r.corners()));
    node.set("polygon_px", pixels(t, r.corners()));
    return node;
  }

  private static ArrayNode rect(RectUm r) {
    return JSON.createArrayNode().add(r.xUm()).add(r.yUm()).add(r.widthUm()).add(r.heightUm());
  }

  private static ArrayNode points(List<PointUm> points) {
    ArrayNode node = JSON.createArrayNode();
    points.forEach(p -> node.addArray().add(p.xUm()).add(p.yUm()));
    return node;
  }

  private static ArrayNode pixels(DieTruth t, List<PointUm> points) {
    ArrayNode node = JSON.createArrayNode();
    points.forEach(p -> node.addArray().add(t.umToPx().columnPx(p)).add(t.umToPx().rowPx(p)));
    return node;
  }
}
