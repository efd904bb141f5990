// The table of regions: sorted, filtered, tied to the picture.

const ResultTable = (() => {
  const filter = { words: "", layer: "", doubtful: false };
  const tally = element("p", { class: "tally", role: "status" });
  const SPECK = 0.001, FEW = 4; // share of the die; fewer specks than this stay by themselves
  let unfolded = false;

  const table = sortedTable({
    label: "Table of regions",
    columns: [
      { name: "Region", of: s => s.id.replace(/\d+/, n => n.padStart(5, "0")), up: true },
      { name: "Class", of: s => Words.className(s), up: true },
      { name: Frame.scaled ? "Area, mm²" : "Area, px²", of: s => s.areaPx, number: true },
      { name: "Share", of: s => s.share, number: true },
      { name: "Confidence", of: s => hasConfidence(s) ? s.confidence : -1, number: true },
    ],
    sorted: 2,
    up: false,
    entries,
    before: (a, b) => a.id < b.id ? -1 : 1,
    row,
    pick,
    isChosen: id => id === Shapes.chosenId || id === "damage" && !unfolded && Shapes.chosen
        && isSpeck(Shapes.chosen)
      || Shapes.chosen !== undefined && id === Shapes.chosen.partOf,
  });

  function hasConfidence(s) {
    return s.confidence !== undefined && layerOf(s).reason !== "undecided";
  }

  function wanted(s) {
    return holds(s.id + " " + Words.className(s) + " " + s.note, filter.words)
      && (!filter.layer || layerOf(s).name === filter.layer)
      && (!filter.doubtful || (hasConfidence(s) ? s.confidence < 0.5 : s.cls === "unclear"
        && s.reason !== "empty"));
  }

  const isSpeck = s => s.made === "found" && !s.note && s.share < SPECK && s.cls === "unclear"
    && ["damaged", "missing"].includes(s.reason);

  // The regions that are shown; small damaged places are one entry until somebody wants to see them.
  function entries() {
    const list = Store.regions.filter(wanted);
    const specks = list.filter(isSpeck);
    if (specks.length < FEW) {
      return list;
    }
    const sum = name => specks.reduce((n, s) => n + s[name], 0);
    const areaMm2 = Frame.scaled ? sum("areaMm2") : undefined;
    const scale = 2 * Frame.relativeUncertainty;
    // The outlines' parts are each its own, that of the scale is common to all.
    const own = specks.reduce((n, s) => n + Math.max(0, s.uAreaMm2 ** 2 - (scale * s.areaMm2) ** 2), 0);
    const all = { id: "damage", fold: specks.length, cls: "unclear", reason: "damaged", made: "found",
      note: "", areaPx: sum("areaPx"), share: sum("share"), areaMm2,
      uAreaMm2: Frame.scaled ? Math.hypot(Math.sqrt(own), scale * areaMm2) : undefined };
    return [...unfolded ? list : list.filter(s => !isSpeck(s)), all];
  }

  function foldRow(s) {
    return element("tr", { "data-id": s.id, class: "fold", onclick: () => pick(s) },
      element("th", { scope: "row" }, element("button", { type: "button", class: "id",
        "aria-pressed": "false", "aria-expanded": String(unfolded),
        title: unfolded ? "Fold them together" : "Show each of them" }, s.fold + " specks")),
      element("td", {}, Hatches.swatchOf(s), "damaged"),
      element("td", { class: "n" }, Words.bareArea(s)),
      element("td", { class: "n" }, Words.percent(s.share)),
      element("td", { class: "n" }, "–"));
  }

  function row(s) {
    if (s.fold) {
      return foldRow(s);
    }
    const mark = s.made === "found" ? "" : "*";
    return element("tr",
      { "data-id": s.id, class: s.id === Shapes.chosenId && "chosen",
        onmouseenter: () => Shapes.point(s.id), onmouseleave: () => Shapes.point(null),
        onclick: () => pick(s) },
      element("th", { scope: "row" }, element("button",
        { type: "button", class: "id", "aria-pressed": String(s.id === Shapes.chosenId) },
        s.id + mark), s.note ? element("span", { class: "noted", title: "has a note" },
        "¶") : null),
      element("td", {}, Hatches.swatchOf(s), Words.className(s)),
      element("td", { class: "n" }, Words.bareArea(s)),
      element("td", { class: "n" }, Words.percent(s.share)),
      element("td", { class: "n" }, hasConfidence(s) ? Words.probability(s.confidence)
        : s.made === "found" ? "–" : "given"));
  }

  function pick(s) {
    if (s.fold) {
      unfolded = !unfolded;
      rows();
      return;
    }
    Shapes.choose(s.id);
    Picture.reveal(s.rings);
  }

  function rows() {
    table.rows();
    tally.textContent = tallied(Store.regions.filter(wanted).length, Store.regions.length, "region");
  }

  function layerChoices(select) {
    const names = Survey.layers.map(l => l.name);
    select.append(element("option", { value: "" }, "every class"),
      ...names.map(n => element("option", { value: n }, n)));
    return select;
  }

  return {
    start() {
      const change = apply => e => {
        apply(e.target);
        rows();
      };
      at("ledger").append(
        element("div", { class: "sieve" },
          element("input", { id: "ledger-words", type: "search", placeholder: "Find in the table",
            "aria-label": "Find regions by name, class or note",
            oninput: change(i => { filter.words = i.value; }) }),
          layerChoices(element("select", { "aria-label": "Show one class",
            onchange: change(s => { filter.layer = s.value; }) })),
          element("label", {}, element("input", { type: "checkbox",
            onchange: change(c => { filter.doubtful = c.checked; }) }), "below 50 % only")),
        table.box,
        tally);
      rows();
      Store.onChange(rows);
      Shapes.onChoice(table.mark);
    },

    // The table as it is shown, for a spreadsheet: one row for each region, columns parted by tabs.
    text: () => {
      const unit = Frame.scaled ? "mm2" : "px2";
      const lines = table.entries().filter(s => !s.fold || !unfolded).flatMap(s =>
        s.fold ? Store.regions.filter(x => wanted(x) && isSpeck(x)) : [s]).map(s => [s.id, Words.className(s),
        Frame.scaled ? Words.significant(s.areaMm2, 6) : Math.round(s.areaPx),
        Frame.scaled && s.uAreaMm2 > 0 ? Words.significant(s.uAreaMm2, 3) : "",
        (100 * s.share).toFixed(2), hasConfidence(s) ? (100 * s.confidence).toFixed(1) : "",
        s.note.replace(/[\t\r\n]+/g, " ")].join("\t"));
      return [["region", "class", "area_" + unit, "u_area_" + unit, "share_percent",
        "confidence_percent", "note"].join("\t"), ...lines].join("\n") + "\n";
    },

    // The region before or after the chosen one, in the order of the table.
    step: by => table.step(by, Shapes.chosenId),
  };
})();
