// The table of regions: sorted, filtered, tied to the picture.

const Ledger = (() => {
  const columns = [
    { name: "Region", of: s => s.id.replace(/\d+/, n => n.padStart(5, "0")), up: true },
    { name: "Class", of: s => Words.className(s), up: true },
    { name: Frame.scaled ? "Area, mm²" : "Area, px²", of: s => s.areaPx, number: true },
    { name: "Share", of: s => s.share, number: true },
    { name: "Confidence", of: s => hasConfidence(s) ? s.confidence : -1, number: true },
  ];
  let sorted = 2, up = false;
  const filter = { words: "", layer: "", doubtful: false };
  const box = at("ledger");
  const body = element("tbody");
  const head = element("tr");
  const tally = element("p", { class: "tally", role: "status" });

  function hasConfidence(s) {
    return s.confidence !== undefined && layerOf(s).reason !== "undecided";
  }

  function heads() {
    head.replaceChildren(...columns.map((c, i) => element("th",
      { scope: "col", class: c.number && "n",
        "aria-sort": i === sorted ? up ? "ascending" : "descending" : "none" },
      element("button", { type: "button", onclick: () => {
        up = i === sorted ? !up : c.up === true;
        sorted = i;
        heads();
        rows();
        head.querySelectorAll("button")[i].focus();
      } }, c.name, element("span", { "aria-hidden": "true" },
        i === sorted ? up ? " ↑" : " ↓" : "")))));
  }

  function wanted(s) {
    const words = filter.words.toLowerCase().split(/\s+/).filter(w => w);
    const text = (s.id + " " + Words.className(s) + " " + s.note).toLowerCase();
    return words.every(w => text.includes(w))
      && (!filter.layer || layerOf(s).name === filter.layer)
      && (!filter.doubtful || (hasConfidence(s) ? s.confidence < 0.5 : s.cls === "unclear"
        && s.reason !== "empty"));
  }

  function shown() {
    const value = columns[sorted].of;
    return Store.regions.filter(wanted).sort((a, b) => {
      const x = value(a), y = value(b);
      return (x < y ? -1 : x > y ? 1 : 0) * (up ? 1 : -1) || (a.id < b.id ? -1 : 1);
    });
  }

  function row(s) {
    const mark = s.made === "found" ? "" : "*";
    return element("tr",
      { "data-id": s.id, class: s.id === Shapes.chosenId && "chosen",
        onmouseenter: () => Shapes.point(s.id), onmouseleave: () => Shapes.point(null),
        onclick: () => pick(s) },
      element("th", { scope: "row" }, element("button",
        { type: "button", class: "id", "aria-pressed": String(s.id === Shapes.chosenId) },
        s.id + mark), s.note ? element("span", { class: "noted", title: "has a side note" },
        "¶") : null),
      element("td", {}, Hatches.swatchOf(s), Words.className(s)),
      element("td", { class: "n" }, Words.bareArea(s)),
      element("td", { class: "n" }, Words.percent(s.share)),
      element("td", { class: "n" }, hasConfidence(s) ? Words.probability(s.confidence)
        : s.made === "found" ? "–" : "given"));
  }

  function pick(s) {
    Shapes.choose(s.id);
    Plate.reveal(s.rings);
  }

  function rows() {
    const list = shown();
    const focus = body.contains(document.activeElement)
      ? document.activeElement.closest("tr").dataset.id : null;
    body.replaceChildren(...list.map(row));
    const total = Store.regions.length;
    tally.textContent = list.length === total ? Words.counted(total, "region")
      : list.length + " of " + Words.counted(total, "region");
    if (focus !== null) {
      const again = body.querySelector('tr[data-id="' + CSS.escape(focus) + '"] button');
      (again || at("ledger-words")).focus();
    }
  }

  function mark() {
    body.querySelectorAll("tr").forEach(tr => {
      const on = tr.dataset.id === Shapes.chosenId
        || Shapes.chosen !== undefined && tr.dataset.id === Shapes.chosen.partOf;
      tr.classList.toggle("chosen", on);
      tr.querySelector("button").setAttribute("aria-pressed", String(on));
      if (on) {
        // Only the table scrolls; the page stays where the reader has it.
        const rows = tr.closest(".rows"), lid = head.offsetHeight;
        rows.scrollTop = Math.min(Math.max(rows.scrollTop,
          tr.offsetTop + tr.offsetHeight - rows.clientHeight), tr.offsetTop - lid);
      }
    });
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
      box.append(
        element("div", { class: "sieve" },
          element("input", { id: "ledger-words", type: "search", placeholder: "Find in the table",
            "aria-label": "Find regions by name, class or note",
            oninput: change(i => { filter.words = i.value; }) }),
          layerChoices(element("select", { "aria-label": "Show one class",
            onchange: change(s => { filter.layer = s.value; }) })),
          element("label", {}, element("input", { type: "checkbox",
            onchange: change(c => { filter.doubtful = c.checked; }) }), "only doubtful")),
        element("div", { class: "rows", tabindex: "0", role: "region",
          "aria-label": "Table of regions" },
        element("table", {}, element("thead", {}, head), body)),
        tally);
      heads();
      rows();
      Store.onChange(rows);
      Shapes.onChoice(mark);
    },

    // The region before or after the chosen one, in the order of the table.
    step(by) {
      const list = shown();
      if (list.length > 0) {
        const now = list.findIndex(s => s.id === Shapes.chosenId);
        const next = now < 0 ? (by > 0 ? 0 : list.length - 1)
          : (now + by + list.length) % list.length;
        pick(list[next]);
      }
    },
  };
})();
