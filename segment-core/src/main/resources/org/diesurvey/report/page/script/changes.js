// What was corrected, in words and sums, and where it is kept.

const Changes = (() => {
  const words = {
    drawn: () => "drawn",
    outline: c => "outline changed, " + Words.area(c.before) + " before",
    class: c => "was " + Words.className(c.before),
    noted: () => "note",
    removed: () => "deleted",
  };

  function entry(c) {
    const s = c.shape;
    const gone = c.what === "removed";
    const also = c.what === "outline" && Words.className(c.before) !== Words.className(s)
      ? ", was " + Words.className(c.before) : "";
    return element("li", {},
      gone ? element("span", { class: "id gone" }, s.id)
        : element("button", { type: "button", class: "id", onclick: () => {
          Shapes.choose(s.id);
          Picture.reveal(s.rings);
        } }, s.id), " ",
      (s.kind === "array" ? "bit-cell array" : Words.className(s)) + ": " + words[c.what](c) + also,
      !gone && c.what !== "noted" && s.kind === "region" ? ", now " + Words.area(s) : null,
      s.note && !gone ? element("q", { dir: "auto" }, Words.visible(s.note)) : null);
  }

  function sums(list) {
    const all = new Map();
    for (const s of list.filter(x => x.kind === "region")) {
      const name = layerOf(s).name;
      const sum = all.get(name) || { share: 0, mm2: 0, n: 0 };
      all.set(name, { share: sum.share + s.share, mm2: sum.mm2 + (s.areaMm2 || 0), n: sum.n + 1 });
    }
    return all;
  }

  function totals() {
    const before = sums(Store.found), now = sums(Store.shapes);
    const names = Survey.layers.map(l => l.name).filter(n => before.has(n) || now.has(n));
    const none = { share: 0, mm2: 0, n: 0 };
    const cells = s => [element("td", { class: "n" }, String(s.n)),
      Frame.scaled && element("td", { class: "n" }, Words.significant(s.mm2, 4)),
      element("td", { class: "n" }, Words.percent(s.share))];
    const heads = when => [when + " regions", Frame.scaled && when + " mm²", when + " share"]
      .filter(h => h).map(h => element("th", { scope: "col", class: "n" }, h));
    return element("table", {}, element("caption", {}, "Class totals, found and corrected"),
      element("thead", {}, element("tr", {}, element("th", { scope: "col" }, "Class"),
        heads("Found:"), heads("Now:"))),
      element("tbody", {}, names.map(n => element("tr", {}, element("th", { scope: "row" }, n),
        cells(before.get(n) || none), cells(now.get(n) || none)))));
  }

  function kept(n) {
    if (!Store.kept) {
      return "This browser keeps nothing for this page: save the outlines before you close it.";
    }
    return n === 0 ? "No corrections yet." : Words.counted(n, "correction") + ", kept in this browser.";
  }

  function draw() {
    const list = Store.changes();
    const outlines = list.filter(c => c.what !== "noted");
    at("kept").textContent = kept(list.length);
    at("kept").classList.toggle("loose", !Store.kept);
    at("changes").hidden = list.length === 0;
    at("change-list").replaceChildren(...list.map(entry));
    at("change-totals").replaceChildren(...(outlines.length > 0 ? [totals()] : []));
  }

  return {
    start() {
      at("author").value = Store.author;
      at("author").addEventListener("input", e => Store.setAuthor(e.target.value));
      at("as-found").addEventListener("click", () => {
        Store.apply("reset to the survey", Store.found);
        say("Reset to the survey. Undo brings the corrections back.");
      });
      Store.onChange(draw);
      draw();
      addEventListener("beforeunload", e => {
        if (!Store.kept && Store.changes().length > 0 && !Save.saved) {
          e.preventDefault();
        }
      });
    },
  };
})();
