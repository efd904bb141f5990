// Outlines out and in: GeoJSON in the form of the survey's own regions.geojson.

const Save = (() => {
  const round = v => Math.round(v * 100) / 100 + 0;
  let saved = true;

  // Closed, outer rings counter-clockwise and holes clockwise with y up (RFC 7946, 3.1.6); without
  // a scale y runs down and the axes are taken as drawn, as in regions.geojson.
  function ring(corners, counterClockwise) {
    const out = corners.map(([x, y]) => [round(x), round(y)]);
    if (Geometry.ringArea(out) > 0 !== counterClockwise) {
      out.reverse();
    }
    return [...out, out[0]];
  }

  function coordinates(s) {
    const rings = !Frame.scaled ? s.rings : s.um || s.rings.map(r => r.map(Frame.toDie));
    return rings.map((r, i) => ring(r, i === 0));
  }

  function properties(s) {
    const out = { id: s.id, kind: s.kind === "array" ? "bit-cell array" : "region" };
    if (s.kind === "array") {
      out.part_of = s.partOf;
    } else {
      out.class = s.cls;
      if (s.cls === "unclear" && s.reason) {
        out.reason = s.reason;
      }
    }
    out.outline = s.um || s.made === "found" ? "found" : s.made;
    if (s.kind === "region" && s.made === "found") {
      if (s.areaMm2 !== undefined) {
        out.area_mm2 = s.areaMm2;
        out.standard_uncertainty_area_mm2 = s.uAreaMm2;
      }
      out.area_px = s.areaPx;
      out.share_of_die = s.share;
      out.confidence = s.confidence;
      if (s.bondPads !== undefined) {
        out.bond_pads = s.bondPads;
      }
    }
    for (const name of ["note", "author", "time"]) {
      if (s[name]) {
        out[name] = s[name];
      }
    }
    return out;
  }

  const description = Frame.scaled
    ? "Planar micrometres, not longitude and latitude: origin at the lower left corner of"
      + " the die (without a die edge: of the upright rectangle around the photograph),"
      + " x right, y up, the die's rotation taken out. RFC 7946 expects WGS 84;"
      + " read this file as planar by agreement."
    : "Planar pixels of the photograph, not longitude and latitude: origin at the outer"
      + " corner of the first pixel, x right, y down, since the photograph has no scale."
      + " RFC 7946 expects WGS 84; read this file as planar by agreement.";

  function collection() {
    return {
      type: "FeatureCollection",
      coordinate_frame: { unit: Frame.scaled ? "um" : "px", y_axis: Frame.scaled ? "up" : "down",
        width: Frame.scaled ? round(Frame.edgeWidth) : Survey.photo.width_px,
        height: Frame.scaled ? round(Frame.edgeHeight) : Survey.photo.height_px,
        description },
      photo: { file_name: Survey.photo.file_name, sha256: Survey.photo.sha256,
        um_per_px: Frame.scaled ? Frame.pitch : undefined },
      survey: { sha256: Survey.survey_sha256 },
      features: Store.shapes.map(s => ({ type: "Feature", id: s.id, properties: properties(s),
        geometry: { type: "Polygon", coordinates: coordinates(s) } })),
    };
  }

  function fileName() {
    const base = Survey.photo.file_name.replace(/\.[^.]*$/, "").replace(/[^\p{L}\p{N}_.-]+/gu, "_");
    return (base || "die") + ".corrected.geojson";
  }

  function save() {
    const text = JSON.stringify(collection(), null, 1) + "\n";
    const link = element("a", { download: fileName(),
      href: URL.createObjectURL(new Blob([text], { type: "application/geo+json" })) });
    document.body.append(link);
    link.click();
    link.remove();
    setTimeout(() => URL.revokeObjectURL(link.href), 60000);
    saved = true;
    say("Saved as " + fileName() + ".");
  }

  function shapeOf(feature, known) {
    const p = feature.properties || {};
    const id = String(feature.id === undefined ? p.id : feature.id).slice(0, 60);
    const array = p.part_of !== undefined || p.kind === "bit-cell array";
    if (known.has(id)) {
      throw new Error("two outlines are called " + id);
    }
    known.add(id);
    const geometry = feature.geometry || {};
    if (geometry.type !== "Polygon") {
      throw new Error(id + " is no Polygon");
    }
    if (!geometry.coordinates.flat().every(c => c.slice(0, 2).every(Number.isFinite))) {
      throw new Error(id + " has corners that cannot be read");
    }
    const rings = geometry.coordinates.map(r => r.slice(0, -1)
      .map(c => Frame.scaled ? Frame.fromDie(c) : [c[0], c[1]]));
    const same = Store.found.find(f => f.id === id);
    const s = { id, kind: array ? "array" : "region", partOf: array ? p.part_of : undefined,
      cls: array ? "memory array" : p.class, reason: p.reason, rings,
      made: p.outline === "drawn" ? "drawn" : "corrected",
      note: typeof p.note === "string" ? p.note.slice(0, 2000) : "",
      author: typeof p.author === "string" ? p.author.slice(0, 200) : undefined,
      time: typeof p.time === "string" ? p.time.slice(0, 40) : undefined };
    Store.checkShape(s);
    if (Geometry.crossesItself(rings)) {
      throw new Error(id + " crosses itself");
    }
    if (same && same.cls === s.cls && same.reason === s.reason
        && JSON.stringify(coordinates(same)) === JSON.stringify(geometry.coordinates)) {
      return Object.freeze({ ...same, note: s.note, author: s.author, time: s.time });
    }
    return Store.measured(s);
  }

  async function open(file) {
    try {
      if (file.size > 50e6) {
        throw new Error("it is larger than 50 MB");
      }
      const doc = JSON.parse(await file.text());
      const frame = doc.coordinate_frame || {};
      if (doc.type !== "FeatureCollection" || !Array.isArray(doc.features)
          || frame.unit !== (Frame.scaled ? "um" : "px")) {
        throw new Error("it is no file of outlines in " + (Frame.scaled ? "um" : "px"));
      }
      const known = new Set();
      const list = doc.features.map(f => shapeOf(f, known));
      const orphan = list.find(s => s.partOf && !known.has(s.partOf));
      if (orphan) {
        throw new Error(orphan.id + " is part of nothing that is there");
      }
      Store.apply("open " + Words.visible(file.name), list);
      const other = (doc.photo || {}).sha256 !== Survey.photo.sha256;
      say(Words.counted(list.length, "outline") + " opened." + (other
        ? " They were made for another photograph: check that they fit, or undo." : ""));
      at("said").classList.toggle("warned", other);
    } catch (e) {
      say("The file was not opened: " + Words.visible(String(e.message)) + ".");
    }
  }

  return {
    get saved() { return saved; },
    collection,

    start() {
      at("save").addEventListener("click", save);
      at("open").addEventListener("change", e => {
        if (e.target.files.length > 0) {
          open(e.target.files[0]);
          e.target.value = "";
        }
      });
      Store.onChange(() => { saved = false; });
    },
  };
})();
