// All shapes, found and corrected, with undo, redo, and a copy kept in the browser. A list of shapes
// is never changed, only replaced; so an earlier list is an earlier state.

const Store = (() => {
  const KEY = "diesurvey:" + Survey.survey_sha256;
  const DEEP = 200; // steps back
  const LETTERS = { "memory array": "M", "hard macro": "H", "logic": "L", "pad ring": "P" };

  const found = foundShapes();
  let shapes = found;
  let past = [], future = [];
  let author = "";
  let kept = true;
  let trouble = "";
  const listeners = [];

  function foundShapes() {
    const all = [];
    for (const r of Survey.regions) {
      all.push(Object.freeze({
        id: r.id, kind: "region", cls: r.class, reason: r.reason, rings: r.px, um: r.um,
        made: "found", note: "", areaPx: r.area_px, areaMm2: r.area_mm2, uAreaMm2: r.u_area_mm2,
        share: r.share, confidence: r.confidence, lines: r.lines, neighbours: r.neighbours,
        bondPads: r.bond_pads,
      }));
      r.arrays.forEach((a, i) => all.push(measured({
        id: r.id + "." + (i + 1), kind: "array", partOf: r.id, cls: "memory array", rings: a.px,
        um: a.um, made: "found", note: "",
      })));
    }
    return all;
  }

  // A shape with the measures that its outline has; the uncertainty is the scale's part alone,
  // since how well a person placed the outline is not known here.
  function measured(shape) {
    const areaMm2 = Frame.areaMm2(shape.rings);
    return Object.freeze({
      ...shape,
      areaPx: Geometry.area(shape.rings),
      areaMm2,
      uAreaMm2: areaMm2 === undefined ? undefined : 2 * Frame.relativeUncertainty * areaMm2,
      share: Frame.share(shape.rings),
    });
  }

  const now = () => new Date().toISOString().replace(/\.\d+Z$/, "Z");
  const signed = shape => ({ ...shape, author: author || undefined, time: now() });

  function lean(shape) {
    if (shape.made === "found") {
      return { id: shape.id, made: "found", note: shape.note || undefined, author: shape.author,
        time: shape.time };
    }
    const { id, kind, partOf, cls, reason, rings, made, note, author: by, time, ground } = shape;
    return { id, kind, partOf, cls, reason, rings, made, note, author: by, time, ground };
  }

  function rich(lean) {
    const original = found.find(f => f.id === lean.id);
    if (lean.made === "found") {
      if (!original) {
        throw new Error("no region " + lean.id);
      }
      return Object.freeze({ ...original, note: checkedText(lean.note), author: lean.author,
        time: lean.time });
    }
    checkShape(lean);
    if (lean.ground === "found" && original) {
      // The class was changed, the outline not: its measures still hold.
      return Object.freeze({ ...original, ...lean, note: checkedText(lean.note),
        um: original.um, confidence: undefined });
    }
    const same = original && original.cls === lean.cls && original.reason === lean.reason;
    const evidence = same ? { confidence: original.confidence, lines: original.lines,
      bondPads: original.bondPads } : {};
    return measured({ ...evidence, ...lean, note: checkedText(lean.note) });
  }

  const checkedText = text => typeof text === "string" ? text.slice(0, 2000) : "";

  function checkShape(s) {
    const good = typeof s.id === "string" && Array.isArray(s.rings) && s.rings.length > 0
      && s.rings.every(ring => Array.isArray(ring) && ring.length >= 3
        && ring.every(p => Array.isArray(p) && p.length === 2 && p.every(Number.isFinite)
          && p.every(v => Math.abs(v) < 1e7)))
      && (s.kind === "array" || layerOf(s) !== undefined);
    if (!good) {
      throw new Error("outline " + s.id + " cannot be read");
    }
  }

  function keep() {
    try {
      if (shapes === found && !author) {
        localStorage.removeItem(KEY);
      } else {
        localStorage.setItem(KEY, JSON.stringify({ version: 1, author, shapes: shapes.map(lean) }));
      }
      kept = true;
    } catch (e) {
      kept = false;
    }
  }

  function restore() {
    let text = null;
    try {
      text = localStorage.getItem(KEY);
      if (text !== null) {
        const saved = JSON.parse(text);
        const list = saved.version === 1 ? saved.shapes.map(rich) : null;
        if (list === null || new Set(list.map(s => s.id)).size !== list.length) {
          throw new Error("another version");
        }
        author = checkedText(saved.author);
        shapes = list;
      }
    } catch (e) {
      if (text === null) {
        kept = false;
      } else {
        trouble = "Corrections kept in this browser could not be read and were set aside.";
        localStorage.setItem(KEY + ":set-aside", text);
      }
    }
  }

  function tell() {
    listeners.forEach(listener => listener());
  }

  function replace(list) {
    shapes = list;
    keep();
    tell();
  }

  restore();

  return {
    found,
    measured,
    signed,
    checkShape,
    get shapes() { return shapes; },
    get regions() { return shapes.filter(s => s.kind === "region"); },
    get kept() { return kept; },
    get trouble() { return trouble; },
    get author() { return author; },
    get undoLabel() { return past.length > 0 ? past[past.length - 1].label : ""; },
    get redoLabel() { return future.length > 0 ? future[future.length - 1].label : ""; },
    byId: id => shapes.find(s => s.id === id),
    arraysOf: id => shapes.filter(s => s.partOf === id),
    onChange: listener => listeners.push(listener),

    setAuthor(name) {
      author = checkedText(name.trim());
      keep();
    },

    // Replaces the list; steps with the same joined label in a row become one step back.
    apply(label, list, joined = false) {
      const last = past[past.length - 1];
      if (!(joined && last && last.label === label && last.joined)) {
        past.push({ label, shapes, joined });
        past = past.slice(-DEEP);
      }
      future = [];
      replace(list);
    },

    undo() {
      const step = past.pop();
      if (step) {
        future.push({ label: step.label, shapes });
        replace(step.shapes);
        say("Undone: " + step.label + ".");
      }
    },

    redo() {
      const step = future.pop();
      if (step) {
        past.push({ label: step.label, shapes });
        replace(step.shapes);
        say("Done again: " + step.label + ".");
      }
    },

    // The next free name of a class, as the survey gives them.
    freeId(cls, partOf, taken = shapes) {
      const letter = partOf ? partOf + "." : LETTERS[cls] || "U";
      let n = 1;
      while (taken.some(s => s.id === letter + n) || found.some(s => s.id === letter + n)) {
        n++;
      }
      return letter + n;
    },

    // What differs from the survey: added, removed and changed shapes.
    changes() {
      const old = new Map(found.map(s => [s.id, s]));
      const out = [];
      for (const s of shapes) {
        const before = old.get(s.id);
        old.delete(s.id);
        if (!before) {
          out.push({ shape: s, what: "drawn" });
        } else if (s !== before && (s.made !== "found" || s.note)) {
          out.push({ shape: s, before,
            what: s.made === "found" ? "noted" : s.um ? "class" : "outline" });
        }
      }
      old.forEach(before => out.push({ shape: before, before, what: "removed" }));
      return out;
    },
  };
})();

// The layer that a shape is shown in.
function layerOf(shape) {
  return Survey.layers.find(l => l.class === shape.cls
    && (l.class !== "unclear" || l.reason === (shape.reason || "undecided")));
}
