// What one does with the picture: view, measure, edit. And the line that measures.

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
        Plate.pane.classList.toggle("to-" + n, n === mode);
      }
      listeners.forEach(l => l());
      Plate.redraw();
    },

    start() {
      names.forEach(n => at("mode-" + n).addEventListener("click", () => Modes.set(n)));
    },
  };
})();

const Tape = (() => {
  let points = [];
  let end = null; // where the pointer is, while the tape is open
  let open = false;

  const total = list => list.slice(1).reduce((sum, p, i) => sum + Frame.length(list[i], p), 0);

  function reading() {
    const list = open && end ? [...points, end] : points;
    if (list.length < 2) {
      at("tape-reads").textContent = open ? "Click the other end." : "Click one end of what to measure.";
      return;
    }
    const length = total(list);
    const spans = Math.max(1, Math.round(Number(at("tape-spans").value) || 1));
    const last = list.slice(-2).map(p => Frame.scaled ? Frame.toDie(p) : p);
    const dx = Math.abs(last[1][0] - last[0][0]), dy = Math.abs(last[1][1] - last[0][1]);
    const unit = Frame.scaled ? " µm" : " px";
    at("tape-reads").textContent = Words.length(length)
      + (spans > 1 ? ", one of " + spans + " periods is " + Words.length(length / spans) : "")
      + (list.length === 2 ? " (" + Words.significant(dx, 4) + unit + " across, "
        + Words.significant(dy, 4) + unit + " up)" : " over " + (list.length - 1) + " sections");
  }

  function show() {
    reading();
    Plate.redraw();
  }

  Plate.drawOver(() => {
    if (Modes.mode !== "measure" || points.length === 0) {
      return [];
    }
    const list = (open && end ? [...points, end] : points).map(Plate.onScreen);
    const path = "M" + list.map(p => p.join(" ")).join("L");
    return [drawing("path", { class: "tape-under", d: path }),
      drawing("path", { class: "tape-line", d: path }),
      ...list.map(([x, y]) => drawing("circle", { class: "tape-end", cx: x, cy: y, r: 4 }))];
  });

  return {
    start() {
      at("tape-spans").addEventListener("input", reading);
      at("tape-clear").addEventListener("click", Tape.clear);
      if (!Frame.scaled) {
        at("tape-note").textContent = "The photograph has no scale: lengths are in px.";
      }
      reading();
    },

    // Sets an end or a bend.
    put(p) {
      if (!open) {
        points = [p];
        open = true;
      } else {
        points.push(p);
      }
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

    // The tape ends at the last place set.
    finish() {
      open = false;
      end = null;
      show();
    },

    clear() {
      points = [];
      Tape.finish();
    },
  };
})();
