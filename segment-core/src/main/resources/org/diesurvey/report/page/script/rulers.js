// What one does with the picture: view, measure, edit. And the rulers.

const Modes = (() => {
  const names = ["view", "measure", "edit"];
  const listeners = [];
  let mode = "view";

  return {
    get mode() { return mode; },
    onChange: listener => listeners.push(listener),

    set(name) {
      mode = name;
      for (const n of names) {
        at("mode-" + n).setAttribute("aria-pressed", String(n === mode));
        at("tools-" + n).hidden = n !== mode;
        Picture.pane.classList.toggle("to-" + n, n === mode);
      }
      listeners.forEach(l => l());
      Picture.redraw();
    },

    start() {
      names.forEach(n => at("mode-" + n).addEventListener("click", () => Modes.set(n)));
    },
  };
})();

const Rulers = (() => {
  const PLACED = 1.5; // screen px; how well a person places an end along an axis, k = 1
  const LONGEST = 200; // points of a ruler that is read from elsewhere
  let rulers = []; // {id, points, placed, spans}; placed: px of the photograph
  let taken = []; // those removed last
  let points = [], end = null; // of the ruler that is being set; where the pointer is
  let placed = 0, open = false;

  // Length of a line in um or px, and its standard uncertainty: each point is placed by itself, the
  // scale is common to all.
  function measured(list, placedPx, spans = 1) {
    const at = list.map(p => Frame.scaled ? Frame.toDie(p) : p);
    const units = at.slice(1).map((p, i) => {
      const d = Geometry.distance(at[i], p);
      return d > 0 ? [(p[0] - at[i][0]) / d, (p[1] - at[i][1]) / d] : [0, 0];
    });
    const length = at.slice(1).reduce((sum, p, i) => sum + Geometry.distance(at[i], p), 0);
    const squares = at.reduce((sum, _, i) => {
      const [a, b] = [units[i - 1] || [0, 0], units[i] || [0, 0]];
      return sum + (a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2;
    }, 0);
    return { length: length / spans, u: Math.hypot(Math.sqrt(squares) * placedPx * Frame.pitch,
      length * Frame.relativeUncertainty) / spans, at };
  }

  const unit = Frame.scaled ? "µm" : "px";
  const worded = m => Words.measured(m.length, m.u, unit);

  function reading() {
    const list = open && end ? [...points, end] : points;
    const spans = Math.max(1, Math.round(Number(at("tape-spans").value) || 1));
    if (list.length < 2) {
      at("tape-reads").textContent = open ? "Click the other end." : "Click one end of what to measure.";
      return;
    }
    const m = measured(list, placed);
    const [p, q] = m.at.slice(-2);
    at("tape-reads").textContent = worded(m)
      + (spans > 1 ? ", one of " + spans + " periods is " + worded(measured(list, placed, spans)) : "")
      + (list.length === 2 ? " (" + Words.significant(Math.abs(q[0] - p[0]), 4) + " " + unit
        + " across, " + Words.significant(Math.abs(q[1] - p[1]), 4) + " " + unit + " up)"
        : " over " + (list.length - 1) + " sections");
  }

  function list() {
    at("rulers").replaceChildren(...rulers.map(r => element("span", { class: "ruler" },
      element("button", { type: "button", class: "id", title: "Show " + r.id,
        onclick: () => Picture.reveal([r.points]) }, r.id),
      " " + worded(measured(r.points, r.placed))
        + (r.spans > 1 ? ", " + r.spans + " periods of " + worded(measured(r.points, r.placed, r.spans))
          : ""), " ",
      element("button", { type: "button", "aria-label": "Remove ruler " + r.id,
        onclick: () => change(rulers.filter(x => x !== r)) }, "×"))));
    at("tape-clear").disabled = rulers.length + taken.length === 0;
    at("tape-clear").textContent = rulers.length === 0 && taken.length > 0 ? "Bring rulers back"
      : "Remove all rulers";
  }

  function show() {
    reading();
    Picture.redraw();
  }

  function change(next) {
    taken = next.length < rulers.length ? rulers : [];
    rulers = next;
    Keeping.writeRulers(rulers);
    list();
    show();
  }

  const freeId = () => {
    let n = 1;
    while (rulers.some(r => r.id === "R" + n)) {
      n++;
    }
    return "R" + n;
  };

  // What another window or a file holds: only rulers that can be drawn.
  const checked = list => (Array.isArray(list) ? list : []).filter(r => r && Array.isArray(r.points)
    && r.points.length > 1 && r.points.length <= LONGEST && r.placed >= 0 && r.points.every(p =>
    Array.isArray(p) && p.length === 2 && p.every(Number.isFinite)))
    .map((r, i) => ({ id: "R" + (i + 1), points: r.points, placed: Number(r.placed),
      spans: Math.max(1, Math.round(Number(r.spans)) || 1) }));

  const line = (points, words) => {
    const path = "M" + points.map(p => p.join(" ")).join("L");
    const [x, y] = points[points.length - 1];
    return [drawing("path", { class: "tape-under", d: path }),
      drawing("path", { class: "tape-line", d: path }),
      ...points.map(([cx, cy]) => drawing("circle", { class: "tape-end", cx, cy, r: 4 })),
      words && drawing("text", { class: "tape-name", "paint-order": "stroke", x: x + 7, y: y - 7 }, words)].filter(e => e);
  };

  Picture.drawOver(() => [
    ...rulers.flatMap(r => line(r.points.map(Picture.onScreen),
      r.id + "  " + worded(measured(r.points, r.placed)))),
    ...Modes.mode === "measure" && points.length > 0
      ? line((open && end ? [...points, end] : points).map(Picture.onScreen)) : []]);

  return {
    start() {
      rulers = checked(Keeping.readRulers());
      Keeping.onOtherRulers(() => {
        rulers = checked(Keeping.readRulers());
        list();
        Picture.redraw();
      });
      at("tape-spans").addEventListener("input", () => {
        const last = rulers[rulers.length - 1];
        if (!open && last && last.points === points) {
          last.spans = Math.max(1, Math.round(Number(at("tape-spans").value) || 1));
          Keeping.writeRulers(rulers);
          list();
        }
        reading();
      });
      at("tape-clear").addEventListener("click", () => change(rulers.length > 0 ? [] : taken));
      if (!Frame.scaled) {
        at("tape-note").textContent = "No scale: lengths are in px; ± is the placing, k = 1.";
      }
      list();
      reading();
    },

    // Sets an end or a bend.
    put(p) {
      if (!open) {
        points = [p];
        placed = 0;
        open = true;
      } else {
        points = [...points, p];
      }
      placed = Math.max(placed, PLACED * Picture.pxPerScreenPx());
      end = null;
      show();
      if (points.length > 1) {
        say("Measured: " + at("tape-reads").textContent);
      }
    },

    follow(p) {
      if (open) {
        end = p;
        show();
      }
    },

    // The ruler ends at the last place set, and stays.
    finish() {
      end = null;
      points = points.filter((p, i) => i === 0 || Geometry.distance(p, points[i - 1]) > 0.01);
      if (open && points.length > 1) {
        open = false;
        change([...rulers, { id: freeId(), points, placed,
          spans: Math.max(1, Math.round(Number(at("tape-spans").value) || 1)) }]);
        say("Ruler " + rulers[rulers.length - 1].id + " stays: " + at("tape-reads").textContent);
        return;
      }
      open = false;
      show();
    },

    // Gives up the ruler that is being set.
    clear() {
      points = [];
      open = false;
      end = null;
      show();
    },

    get rulers() {
      return rulers.map(r => ({ ...r, measured: measured(r.points, r.placed), words:
        r.id + "  " + worded(measured(r.points, r.placed)) }));
    },

    // Rulers of a file beside those that are here.
    add(list) {
      const known = new Set(rulers.map(r => JSON.stringify(r.points)));
      const fresh = checked(list).filter(r => !known.has(JSON.stringify(r.points)));
      fresh.forEach(r => change([...rulers, { ...r, id: freeId() }]));
    },
  };
})();
