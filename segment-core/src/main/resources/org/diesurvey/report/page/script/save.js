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
    if (!s.um && s.placed !== undefined) {
      out.placed_within_px = round(s.placed); // standard uncertainty of the sides placed by hand
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
      rulers: Rulers.rulers.length === 0 ? undefined : Rulers.rulers.map(r => ({ id: r.id,
        coordinates: r.measured.at.map(([x, y]) => [round(x), round(y)]),
        length: Number(r.measured.length.toPrecision(6)),
        standard_uncertainty_length: Number(r.measured.u.toPrecision(3)),
        periods: r.spans, placed_within_px: round(r.placed) })),
      features: Store.shapes.map(s => ({ type: "Feature", id: s.id, properties: properties(s),
        geometry: { type: "Polygon", coordinates: coordinates(s) } })),
    };
  }

  function baseName() {
    return Survey.photo.file_name.replace(/\.[^.]*$/, "").replace(/[^\p{L}\p{N}_.-]+/gu, "_")
      || "die";
  }

  const fileName = () => baseName() + ".corrected.geojson";

  function download(name, text, type) {
    const link = element("a", { download: name,
      href: URL.createObjectURL(new Blob([text], { type })) });
    document.body.append(link);
    link.click();
    link.remove();
    setTimeout(() => URL.revokeObjectURL(link.href), 60000);
  }

  function save() {
    const text = JSON.stringify(collection(), null, 1) + "\n";
    download(fileName(), text, "application/geo+json");
    saved = true;
    say("Saved as " + fileName() + ".");
  }

  const isCorner = c => Array.isArray(c) && c.length >= 2 && c.slice(0, 2).every(Number.isFinite);

  const isPolygon = rings => Array.isArray(rings) && rings.length > 0
    && rings.every(r => Array.isArray(r) && r.length >= 4 && r.every(isCorner));

  // How far outlines may reach over the edge of the photograph, as a share of its longer side.
  const OVER_EDGE = 0.01;

  function liesOnPhoto(rings) {
    const { width_px: w, height_px: h } = Survey.photo;
    const slack = OVER_EDGE * Math.max(w, h);
    const [x0, y0, x1, y1] = Geometry.box(rings);
    return x0 >= -slack && y0 >= -slack && x1 <= w + slack && y1 <= h + slack;
  }

  function shapeOf(feature) {
    const entry = Store.withoutNulls(feature || {});
    const p = Store.withoutNulls(entry.properties || {});
    const id = String(entry.id === undefined ? p.id : entry.id).slice(0, 60);
    const array = p.part_of !== undefined || p.kind === "bit-cell array";
    const geometry = entry.geometry || {};
    if (geometry.type !== "Polygon") {
      throw new Error(id + " is no Polygon");
    }
    if (!isPolygon(geometry.coordinates)) {
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
      time: typeof p.time === "string" ? p.time.slice(0, 40) : undefined,
      placed: p.placed_within_px >= 0 ? Number(p.placed_within_px) : undefined };
    if (array && typeof s.partOf !== "string") {
      throw new Error(id + " is a bit-cell array, but does not name its memory (part_of)");
    }
    Store.checkShape(s);
    if (Geometry.crossesItself(rings)) {
      throw new Error(id + " crosses itself");
    }
    if (same && same.cls === s.cls && same.reason === s.reason && same.partOf === s.partOf
        && JSON.stringify(coordinates(same)) === JSON.stringify(geometry.coordinates)) {
      return Object.freeze({ ...same, note: s.note, author: s.author, time: s.time });
    }
    if (!liesOnPhoto(rings)) {
      throw new Error(id + " reaches over the edge of the photograph");
    }
    return Store.measured(s);
  }

  function parsed(text) {
    try {
      return JSON.parse(text);
    } catch (e) {
      const begins = text.trimStart().slice(0, 1);
      throw new Error(text.trim() === "" ? "it is empty" : begins === "{" || begins === "["
        ? "it is damaged or not complete: save it again where it came from"
        : "it is no GeoJSON; this page opens the outlines that it saves, and regions.geojson");
    }
  }

  // The outlines of a file, once all of it is clear.
  // Looking for sides that cross costs the square of an outline's corners; this much is some seconds.
  const MOST_PAIRS = 2e8;

  function requireFewCorners(features) {
    let pairs = 0;
    for (const f of features) {
      const rings = ((f || {}).geometry || {}).coordinates;
      const corners = Array.isArray(rings)
        ? rings.reduce((n, r) => n + (Array.isArray(r) ? r.length : 0), 0) : 0;
      pairs += corners * corners;
      if (pairs > MOST_PAIRS) {
        throw new Error("its outlines have more corners than this page can check; use"
          + " diesurvey measure, or draw them with fewer");
      }
    }
  }

  function listOf(doc) {
    const unit = Frame.scaled ? "um" : "px";
    if (doc === null || doc.type !== "FeatureCollection" || !Array.isArray(doc.features)) {
      throw new Error("it is no collection of outlines (GeoJSON FeatureCollection)");
    }
    const frame = doc.coordinate_frame || {};
    if (frame.unit !== unit) {
      throw new Error("it is no file of outlines in " + unit);
    }
    requireFewCorners(doc.features);
    return Store.checkList(doc.features.map(shapeOf));
  }

  // Asks before something takes the place of what is there; true if it may.
  function asked(question, yes) {
    return new Promise(done => {
      const box = at("ask");
      const end = answer => {
        box.close();
        done(answer);
      };
      box.replaceChildren(element("p", {}, question),
        element("div", { class: "answers" },
          element("button", { type: "button", onclick: () => end(true) }, yes),
          element("button", { type: "button", autofocus: true, onclick: () => end(false) },
            "Leave everything as it is")));
      box.oncancel = () => done(false);
      box.showModal();
    });
  }

  async function mayOpen(doc) {
    const { sha256, file_name: name } = doc.photo || {};
    if (sha256 === Survey.photo.sha256) {
      return true;
    }
    const whose = sha256 ? "were made for another photograph"
      + (typeof name === "string" ? ", " + Words.visible(name.slice(0, 100)) : "")
      : "do not say which photograph they were made for";
    return asked("These outlines " + whose + ". They would take the place of all regions shown"
      + " here. Undo would bring those back.", "Open them all the same");
  }

  async function open(file) {
    const named = Words.visible(file.name);
    try {
      if (file.size > 50e6) {
        throw new Error("it is larger than 50 MB");
      }
      const doc = parsed(await file.text());
      const list = listOf(doc);
      if (!await mayOpen(doc)) {
        say("Nothing was opened: all is as it was.");
      } else if (Store.apply("open " + named, list)) {
        Rulers.add((Array.isArray(doc.rulers) ? doc.rulers : []).map(r => ({ ...r,
          placed: r.placed_within_px, spans: r.periods, points: (r.coordinates || []).map(c =>
            Frame.scaled ? Frame.fromDie(c) : c) })));
        say(Words.counted(list.length, "outline") + " opened from " + named + ".");
      }
    } catch (e) {
      say(named + " was not opened: " + Words.visible(String(e.message)) + ".");
    }
  }

  function drops() {
    const holdsFile = e => [...e.dataTransfer.types].includes("Files");
    addEventListener("dragover", e => {
      if (holdsFile(e)) {
        e.preventDefault();
        e.dataTransfer.dropEffect = "copy";
      }
    });
    addEventListener("drop", e => {
      if (holdsFile(e)) {
        e.preventDefault();
        open(e.dataTransfer.files[0]);
      }
    });
  }

  // What could not be read at some time is offered as it was.
  function offerAside() {
    const texts = Keeping.aside;
    at("set-aside").hidden = texts.length === 0;
    at("save-aside").onclick = () =>
      download(baseName() + ".set-aside.json", "[" + texts.join(",\n") + "]\n", "application/json");
    at("drop-aside").onclick = () => {
      Keeping.dropAside();
      offerAside();
    };
  }

  return {
    get saved() { return saved; },
    collection,
    download,
    baseName,

    start() {
      at("save").addEventListener("click", save);
      at("open").addEventListener("change", e => {
        if (e.target.files.length > 0) {
          open(e.target.files[0]);
          e.target.value = "";
        }
      });
      drops();
      offerAside();
      Store.onChange(() => { saved = false; });
    },
  };
})();
