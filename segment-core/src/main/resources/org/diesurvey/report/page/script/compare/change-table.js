// The table of changes, tied to the picture, and what is known of the chosen one.

const ResultTable = (() => {
  let words = "";
  const tally = element("p", { class: "tally", role: "status" });
  const number = c => Number(c.id.replace(/\D+/g, ""));

  const table = sortedTable({
    label: "Table of changes",
    columns: [
      { name: "Change", of: number, up: true },
      { name: "Kind", of: c => Marks.kindOf(c).name, up: true },
      { name: "Size", of: c => Frame.area(Marks.places(c)), number: true },
      { name: "Confidence", of: c => c.certain, number: true },
    ],
    sorted: 0,
    up: true,
    entries: () => Pair.changes.filter(c => Marks.visible(c)
      && holds(c.id + " " + Marks.kindOf(c).name + " " + c.sentence, words)),
    before: (a, b) => number(a) - number(b),
    row,
    pick,
    isChosen: id => id === Marks.chosenId,
  });

  function row(c) {
    return element("tr",
      { "data-id": c.id, class: c.id === Marks.chosenId && "chosen",
        onmouseenter: () => Marks.point(c.id), onmouseleave: () => Marks.point(null),
        onclick: () => pick(c) },
      element("th", { scope: "row" }, element("button",
        { type: "button", class: "id", "aria-pressed": String(c.id === Marks.chosenId) }, c.id)),
      element("td", {}, element("span", { class: "sign", "aria-hidden": "true" },
        Marks.kindOf(c).sign), " " + Marks.kindOf(c).name),
      element("td", { class: "n" }, c.size),
      element("td", { class: "n" }, c.confidence));
  }

  function pick(c) {
    Marks.choose(c.id);
    Picture.reveal(Marks.places(c));
  }

  function rows() {
    const shown = table.rows(), total = Pair.changes.length;
    tally.textContent = total === 0 ? "No change stands out from the uncertainty."
      : tallied(shown, total, "change");
  }

  function entry() {
    const c = Marks.chosen;
    if (!c) {
      at("entry").replaceChildren(element("p", { class: "hint" },
        Pair.changes.length > 0 ? "Click a change in the table or in the picture." : ""));
      return;
    }
    at("entry").replaceChildren(
      element("h2", {}, c.id + " ", element("span", {}, Marks.kindOf(c).name)),
      element("p", { class: "sentence" }, c.sentence),
      element("dl", {}, c.lines.map(([name, value]) =>
        element("div", {}, element("dt", {}, name), element("dd", {}, value)))),
      element("p", { class: "links" }, element("button", { type: "button", id: "look-close",
        onclick: () => Picture.show(Marks.places(c)) }, "Zoom to change")));
  }

  return {
    rows,

    start() {
      at("ledger").append(
        element("div", { class: "sieve" },
          element("input", { id: "ledger-words", type: "search", placeholder: "Find in the table",
            "aria-label": "Find changes by name, kind or sentence", oninput: e => {
              words = e.target.value;
              rows();
            } })),
        table.box,
        tally);
      rows();
      entry();
      Marks.onChoice(() => {
        table.mark();
        entry();
      });
    },

    // The change before or after the chosen one, in the order of the table.
    step: by => table.step(by, Marks.chosenId),
  };
})();
