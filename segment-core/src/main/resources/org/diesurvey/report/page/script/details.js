// What is known of the chosen region, its note, and the ways to change it.

const Details = (() => {
  const box = at("entry");

  function facts(s) {
    const list = [["Area", Words.area(s)], ["Share of the " + Survey.whole, Words.percent(s.share)]];
    if (s.kind === "array") {
      list.push(["Part of", s.partOf]);
    }
    if (s.confidence !== undefined && layerOf(s).reason !== "undecided") {
      list.push([s.um ? "Confidence" : "Confidence as found", Words.probability(s.confidence)]);
    }
    if (s.bondPads !== undefined) {
      list.push(["Bond pads", "about " + s.bondPads]);
    }
    (s.lines || []).forEach(line => list.push(line));
    if (s.made !== "found") {
      list.push(["Outline", s.um ? "as found" : s.made === "drawn" ? "drawn" : "corrected"]);
      if (!s.um && Frame.scaled) {
        list.push(["± of the area", s.uAreaMm2 === undefined ? "not known: measure again"
          : "sides you placed within " + Words.plainLength(s.placed * Frame.pitch)
            + ", the others as found, and the scale; k = 1"]);
      }
    }
    if (s.time) {
      list.push(["Changed", s.time.replace("T", " ").replace("Z", " UTC")
        + (s.author ? ", " + Words.visible(s.author) : "")]);
    }
    return element("dl", {}, list.map(([name, value]) =>
      element("div", {}, element("dt", {}, name), element("dd", {}, value))));
  }

  function links(name, shapes) {
    return shapes.length > 0 && element("p", { class: "links" }, name + " ", shapes.map(s =>
      element("button", { type: "button", class: "id", onclick: () => {
        Shapes.choose(s.id);
        Picture.reveal(s.rings);
      } }, s.id)));
  }

  function note(s) {
    return element("label", { class: "note" }, "Note",
      element("textarea", { id: "side-note", rows: 2, maxlength: 2000, dir: "auto",
        oninput: e => Correction.note(s.id, e.target.value) }));
  }

  function classChoice(s) {
    return element("label", {}, "Class ", element("select", { id: "class-of", onchange: e =>
      Correction.reclass(s.id, Survey.layers[e.target.value]) },
    Survey.layers.map((l, i) => element("option", { value: i, selected: l === layerOf(s) },
      l.name))));
  }

  const verb = (id, words, act) => element("button", { type: "button", id, onclick: act }, words);

  function verbs(s) {
    if (Modes.mode !== "edit") {
      return element("p", { class: "hint" }, verb("to-mend", "Edit this outline", () => Modes.set("edit")));
    }
    return element("div", { class: "verbs" },
      s.kind === "region" && classChoice(s),
      s.kind === "region" && verb("split", "Cut in two", () => Correction.begin("split")),
      s.kind === "region" && verb("merge", "Merge with another", () => Correction.begin("merge")),
      s.kind === "region" && s.cls === "memory array"
        && verb("draw-array", "Draw a bit-cell array", () => Correction.begin("array")),
      verb("delete", s.kind === "region" ? "Delete" : "Delete array",
        () => Correction.remove(s.id)));
  }

  function draw() {
    const s = Shapes.chosen;
    if (!s) {
      box.replaceChildren(element("p", { class: "hint" },
        "Choose a region in the picture or in the table to read its measures."));
      return;
    }
    const typing = document.activeElement && document.activeElement.id === "side-note"
      && box.dataset.id === s.id;
    if (typing) {
      return; // the note is already there, as it is typed
    }
    const focus = box.contains(document.activeElement) ? document.activeElement.id : "";
    box.dataset.id = s.id;
    const neighbours = (s.neighbours || []).map(Store.byId).filter(n => n);
    box.replaceChildren(...[
      element("h2", {}, s.kind === "region" && Hatches.swatchOf(s), s.id + " ",
        element("span", {}, s.kind === "array" ? "bit-cell array" : Words.className(s))),
      verbs(s),
      facts(s),
      Reasons.card(s, links),
      links("Bit-cell arrays", Store.arraysOf(s.id)),
      links("Next to", neighbours),
      note(s)].filter(e => e));
    at("side-note").value = s.note;
    if (focus && at(focus)) {
      at(focus).focus();
    }
  }

  return {
    start() {
      Shapes.onChoice(draw);
      Store.onChange(draw);
      Modes.onChange(draw);
      draw();
    },
  };
})();
