// Correcting: every change of the list of shapes is made here, one step of undo each.

const Correction = (() => {
  let task = null;
  const listeners = [];

  const { changed, drawn, clamped, fault, yielding, withArrays } = Coverage;

  const sentence = text => text[0].toUpperCase() + text.slice(1) + ". ";

  // Makes a change: list(told) gives the new list of shapes, and tells what it took from others.
  // Nothing happens if the areas would not add up.
  function commit(label, list, id) {
    const told = [];
    let next;
    try {
      next = withArrays(list(told), told);
    } catch (e) {
      Shapes.draw();
      say("Not done, all is as it was: " + e.message + ".");
      return;
    }
    if (!Store.apply(label, next)) {
      return;
    }
    if (id !== undefined) {
      Shapes.choose(id, false);
    }
    say(sentence(label + ": done") + (id !== undefined && Shapes.chosen
      ? Shapes.chosen.id + " has " + Words.area(Shapes.chosen) + ". " : "")
      + told.map(sentence).join("") + (told.length > 0 ? "Undo brings it back." : ""));
  }

  function setTask(name) {
    task = name;
    document.querySelectorAll("[data-task]").forEach(b =>
      b.setAttribute("aria-pressed", String(b.dataset.task === name)));
    Picture.pane.classList.toggle("drawing", name !== null);
    listeners.forEach(l => l());
    Picture.redraw();
  }

  const sentences = {
    none: "Drag a corner or a side of the chosen outline. Double-click a side for a new corner.",
    draw: "Drag a rectangle, or click corner after corner; the first corner closes the outline.",
    array: "Draw the bit-cell array inside the memory: drag a rectangle or click corners.",
    split: "Click the line to cut along; a double click ends it.",
    merge: "Click the region to merge with it.",
  };

  function finishDrawing(ring) {
    const kind = task;
    setTask(null);
    const rings = clamped([ring]);
    const wrong = fault(rings);
    if (wrong) {
      say(wrong + ", so nothing was drawn.");
      return;
    }
    if (kind === "array") {
      const home = Shapes.chosen.partOf || Shapes.chosen.id;
      const inside = Clip.common(rings, Store.byId(home).rings).filter(r => !Coverage.isSpeck(r))[0];
      if (!inside) {
        say("The array must lie inside " + home + ".");
        return;
      }
      const id = Store.freeId("", home);
      commit("draw " + id, () => [...Store.shapes, drawn({ id, kind: "array", partOf: home,
        cls: "memory array", rings: inside })], id);
      return;
    }
    const layer = Survey.layers[at("draw-as").value];
    const id = Store.freeId(layer.class);
    const shape = drawn({ id, kind: "region", cls: layer.class, reason: layer.reason, rings });
    commit("draw " + id, told => [...yielding(Store.shapes, shape, told), shape], id);
  }

  function split(line) {
    setTask(null);
    const s = Shapes.chosen;
    const parts = Clip.cut(s.rings, line).filter(r => !Coverage.isSpeck(r))
      .sort((a, b) => Geometry.area(b) - Geometry.area(a));
    if (parts.length < 2) {
      say("The line does not part " + s.id + ": draw it right across.");
      return;
    }
    const made = [];
    parts.forEach((rings, i) => made.push(i === 0 ? changed(s, { rings })
      : drawn({ id: Store.freeId(s.cls, undefined, [...Store.shapes, ...made]), kind: "region",
        cls: s.cls, reason: s.reason, rings })));
    const list = Store.shapes.flatMap(o => o.id === s.id ? made : [o]);
    const cutArrays = list.flatMap(a => {
      if (a.partOf !== s.id) {
        return [a];
      }
      const pieces = made.flatMap(m => Clip.common(a.rings, m.rings)
        .filter(r => !Coverage.isSpeck(r)).slice(0, 1).map(rings => ({ rings, partOf: m.id })));
      return pieces.map((p, i) => pieces.length === 1 && p.partOf === a.partOf ? a : i === 0
        && p.partOf === a.partOf ? changed(a, p)
        : drawn({ kind: "array", cls: a.cls, id: p.partOf + "." + a.id.split(".")[1], ...p }));
    });
    commit("split " + s.id, () => {
      Coverage.requireBalance(s.id, Geometry.area(s.rings), Coverage.total(parts));
      return cutArrays;
    }, s.id);
  }

  const OVERLAP = 0.001; // um, or px without a scale

  // The rectangle along the die's axes that closes the gap between two boxes side by side.
  function bridge(a, b) {
    const boxes = [a, b].map(rings => Geometry.box(rings.map(ring => ring.map(Frame.toDie))));
    const [p, q] = boxes;
    const x = [Math.max(p[0], q[0]), Math.min(p[2], q[2])];
    const y = [Math.max(p[1], q[1]), Math.min(p[3], q[3])];
    const beside = x[0] >= x[1] && y[0] < y[1], above = y[0] >= y[1] && x[0] < x[1];
    if (!beside && !above) {
      return undefined;
    }
    // A little into both: on a turned die, sides that only touch differ in their last digits.
    const [ox, oy] = beside ? [OVERLAP, 0] : [0, OVERLAP];
    const [x0, x1] = [Math.min(...x) - ox, Math.max(...x) + ox];
    const [y0, y1] = [Math.min(...y) - oy, Math.max(...y) + oy];
    return [[[x0, y0], [x1, y0], [x1, y1], [x0, y1]].map(Frame.fromDie)];
  }

  function joined(a, b) {
    const touching = Clip.union(a, b);
    const gap = touching.length > 1 ? bridge(a, b) : undefined;
    return gap ? Clip.union(Clip.union(a, gap)[0], b) : touching;
  }

  return {
    get task() { return task; },
    onTask: listener => listeners.push(listener),

    begin(name) {
      Handles.giveUp();
      if (name !== "draw" && !Shapes.chosen) {
        say("Choose a region first.");
        return;
      }
      if (task === name) {
        Correction.leave();
        return;
      }
      Draw.stop();
      setTask(name);
      if (name === "draw" || name === "array") {
        Draw.start(true, finishDrawing);
      } else if (name === "split") {
        Draw.start(false, split);
      }
      say(sentences[name]);
      Picture.pane.focus({ preventScroll: true });
    },

    leave() {
      Draw.stop();
      setTask(null);
    },

    // Takes other corners for a shape, unless they make no outline.
    reshape(id, rings, label) {
      const s = Store.byId(id);
      const next = clamped(rings);
      const wrong = fault(next);
      if (wrong) {
        Shapes.preview(id, s.rings);
        say(wrong + ", so " + id + " was left as it was.");
        return;
      }
      const shape = changed(s, { rings: next });
      const list = Store.shapes.map(o => o.id === id ? shape : o);
      commit(label + " of " + id, told => yielding(list, shape, told), id);
    },

    addCorner(p) {
      const s = Shapes.chosen;
      const side = Geometry.nearestSide(s.rings, p);
      Correction.reshape(s.id, Reshape.insert(s.rings, side.ring, side.corner, side.at), "add a corner");
    },

    removeCorner(where) {
      const s = Shapes.chosen;
      const rings = Reshape.without(s.rings, where.ring, where.corner);
      if (rings) {
        Correction.reshape(s.id, rings, "remove a corner");
      } else {
        say("An outline needs three corners.");
      }
    },

    remove(id) {
      const s = Store.byId(id);
      Shapes.choose(null, false);
      commit("delete " + id, () => Store.shapes.filter(o => o !== s && o.partOf !== id));
    },

    join(id, other) {
      setTask(null);
      const a = Store.byId(id), b = Store.byId(other);
      const one = joined(a.rings, b.rings);
      if (one.length !== 1) {
        say(id + " and " + other + " neither touch nor lie side by side, so they were not merged.");
        return;
      }
      const shape = changed(a, { rings: one[0],
        note: [a.note, b.note].filter(n => n).join("\n") });
      let list = Store.shapes.flatMap(o => o === a ? [shape] : o === b ? [] : [o]);
      for (const array of Store.arraysOf(other)) {
        const moved = Object.freeze({ ...array, id: Store.freeId("", id, list), partOf: id,
          made: "corrected" });
        list = list.map(o => o === array ? moved : o);
      }
      commit("merge " + other + " with " + id, told => {
        Coverage.requireBalance(id, Geometry.area(one[0]), Coverage.total(Clip.union(a.rings, b.rings))
          + Coverage.total(Clip.minus(one[0], a.rings).flatMap(r => Clip.minus(r, b.rings))));
        return yielding(list, shape, told);
      }, id);
    },

    reclass(id, layer) {
      const s = Store.byId(id);
      const next = Object.freeze(Store.signed({ ...s, cls: layer.class, reason: layer.reason,
        made: s.made === "found" ? "corrected" : s.made, ground: s.um ? "found" : undefined,
        confidence: undefined }));
      commit("call " + id + " " + layer.name.toLowerCase(),
        () => Store.shapes.map(o => o === s ? next : o), id);
    },

    note(id, text) {
      const s = Store.byId(id);
      const next = Object.freeze(Store.signed({ ...s, note: text.slice(0, 2000) }));
      Store.apply("note on " + id, Store.shapes.map(o => o === s ? next : o), true);
    },

    start() {
      const as = at("draw-as");
      Survey.layers.forEach((l, i) => as.append(element("option", { value: i }, l.name)));
      document.querySelectorAll("[data-task]").forEach(b =>
        b.addEventListener("click", () => Correction.begin(b.dataset.task)));
      at("remove-corner").addEventListener("click", () => {
        if (Shapes.chosen && Handles.marked) {
          Correction.removeCorner(Handles.marked);
        } else {
          say("Click the corner to remove first.");
        }
      });
      at("undo").addEventListener("click", Store.undo);
      at("redo").addEventListener("click", Store.redo);
      const steps = () => {
        at("undo").disabled = !Store.undoLabel;
        at("redo").disabled = !Store.redoLabel;
        at("undo").title = Store.undoLabel && "Undo: " + Store.undoLabel;
        at("redo").title = Store.redoLabel && "Redo: " + Store.redoLabel;
      };
      Store.onChange(steps);
      steps();
      Modes.onChange(() => {
        Correction.leave();
        if (Modes.mode === "edit") {
          say(Shapes.chosen ? sentences.none : "Choose the region to correct, or draw a new one.");
        }
      });
      setTask(null);
    },
  };
})();
