// A table that is sorted by its heads, with a row for each entry of the picture.

// Whether a text holds every one of some words.
const holds = (text, words) =>
  words.toLowerCase().split(/\s+/).every(w => text.toLowerCase().includes(w));

// Of the columns, each has a name and a value (of); entries() are those to show, before(a, b)
// orders those of one value, row(entry) makes the row, isChosen(id) tells which one is chosen.
function sortedTable({ label, columns, sorted, up, entries, before, row, pick, isChosen }) {
  const body = element("tbody");
  const head = element("tr");

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
    return entries().sort((a, b) => {
      const x = value(a), y = value(b);
      return (x < y ? -1 : x > y ? 1 : 0) * (up ? 1 : -1) || before(a, b);
    });
  }

  // How many rows there are now.
  function rows() {
    const focus = body.contains(document.activeElement)
      ? document.activeElement.closest("tr").dataset.id : null;
    body.replaceChildren(...shown().map(row));
    if (focus !== null) {
      const again = body.querySelector('tr[data-id="' + CSS.escape(focus) + '"] button');
      (again || at("ledger-words")).focus();
    }
    return body.rows.length;
  }

  heads();
  return {
    rows,
    entries: shown,
    box: element("div", { class: "rows", tabindex: "0", role: "region", "aria-label": label },
      element("table", {}, element("thead", {}, head), body)),

    mark() {
      body.querySelectorAll("tr").forEach(tr => {
        const on = isChosen(tr.dataset.id);
        tr.classList.toggle("chosen", on);
        tr.querySelector("button").setAttribute("aria-pressed", String(on));
        if (on) {
          // Only the table scrolls; the page stays where the reader has it.
          const box = tr.closest(".rows"), lid = head.offsetHeight;
          box.scrollTop = Math.min(Math.max(box.scrollTop,
            tr.offsetTop + tr.offsetHeight - box.clientHeight), tr.offsetTop - lid);
        }
      });
    },

    // The entry before or after the chosen one, in the order of the table.
    step(by, chosenId) {
      const list = shown().filter(e => !e.fold);
      if (list.length > 0) {
        const now = list.findIndex(e => e.id === chosenId);
        const next = now < 0 ? (by > 0 ? 0 : list.length - 1)
          : (now + by + list.length) % list.length;
        pick(list[next]);
      }
    },
  };
}

// How many of the entries are shown.
const tallied = (shown, total, name) => shown === total ? Words.counted(total, name)
  : shown + " of " + Words.counted(total, name);
