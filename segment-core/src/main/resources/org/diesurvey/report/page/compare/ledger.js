// The table of changes, tied to the picture, and what is known of the chosen one.

const Ledger = (() => {
  const columns = [
    { name: "Change", of: c => Number(c.id.replace(/\D+/g, "")), up: true },
    { name: "Kind", of: c => Marks.kindOf(c).name, up: true },
    { name: "Size", of: c => Frame.area(Marks.places(c)), number: true },
    { name: "Significance", of: c => c.weight, number: true },
  ];
  let sorted = 0, up = true, words = "";
  const body = element("tbody");
  const head = element("tr");
  const tally = element("p", { class: "tally", role: "status" });

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

  function shown() {
    const value = columns[sorted].of;
    const wanted = words.toLowerCase().split(/\s+/).filter(w => w);
    return Pair.changes
      .filter(c => Marks.visible(c) && wanted.every(w =>
        (c.id + " " + Marks.kindOf(c).name + " " + c.sentence).toLowerCase().includes(w)))
      .sort((a, b) => {
        const x = value(a), y = value(b);
        return (x < y ? -1 : x > y ? 1 : 0) * (up ? 1 : -1) || columns[0].of(a) - columns[0].of(b);
      });
  }

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
      element("td", { class: "n" }, c.significance));
  }

  function pick(c) {
    Marks.choose(c.id);
    Plate.reveal(Marks.places(c));
  }

  function rows() {
    const list = shown();
    body.replaceChildren(...list.map(row));
    const total = Pair.changes.length;
    tally.textContent = total === 0 ? "No change stands out from the uncertainty."
      : list.length === total ? Words.counted(total, "change")
        : list.length + " of " + Words.counted(total, "change");
  }

  function mark() {
    body.querySelectorAll("tr").forEach(tr => {
      const on = tr.dataset.id === Marks.chosenId;
      tr.classList.toggle("chosen", on);
      tr.querySelector("button").setAttribute("aria-pressed", String(on));
      if (on) {
        // Only the table scrolls; the page stays where the reader has it.
        const box = tr.closest(".rows"), lid = head.offsetHeight;
        box.scrollTop = Math.min(Math.max(box.scrollTop,
          tr.offsetTop + tr.offsetHeight - box.clientHeight), tr.offsetTop - lid);
      }
    });
    entry();
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
        onclick: () => Plate.show(Marks.places(c)) }, "Look at it closely")));
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
        element("div", { class: "rows", tabindex: "0", role: "region",
          "aria-label": "Table of changes" },
        element("table", {}, element("thead", {}, head), body)),
        tally);
      heads();
      rows();
      entry();
      Marks.onChoice(mark);
    },

    // The change before or after the chosen one, in the order of the table.
    step(by) {
      const list = shown();
      if (list.length > 0) {
        const now = list.findIndex(c => c.id === Marks.chosenId);
        const next = now < 0 ? (by > 0 ? 0 : list.length - 1)
          : (now + by + list.length) % list.length;
        pick(list[next]);
      }
    },
  };
})();
