// All shapes, found and corrected, with undo, redo, and a copy kept in the browser. A list of shapes
// is never changed, only replaced; so an earlier list is an earlier state.

const Store = (() => {
  const DEEP = 200; // steps back
  const OVERTAKEN = "Another window changed the corrections of this survey meanwhile, so this was"
    + " not done: look at them and do it again.";

  const found = foundShapes();
  let shapes = found;
  let past = [], future = [];
  let author = "";
  let kept = true;
  const listeners = [];

  function foundShapes() {
    const all = [];
    for (const r of Survey.regions) {
      all.push(Object.freeze({
        id: r.id, kind: "region", cls: r.class, reason: r.reason, rings: r.px, um: r.um,
        made: "found", note: "", areaPx: r.area_px, areaMm2: r.area_mm2, uAreaMm2: r.u_area_mm2,
        share: r.share, confidence: r.confidence, lines: r.lines, neighbours: r.neighbours,
        bondPads: r.bond_pads, uOutlinePx2: outlinePart(r),
      }));
      r.arrays.forEach((a, i) => all.push(measured({
        id: r.id + "." + (i + 1), kind: "array", partOf: r.id, cls: "memory array", rings: a.px,
        um: a.um, made: "found", note: "",
      })));
    }
    return all;
  }

  // A shape with the measures that its outline has. Where nobody knows how well the outline was
  // placed, the area has no uncertainty; measuring again gives it.
  function measured(shape) {
    const areaPx = Geometry.area(shape.rings);
    const areaMm2 = Frame.areaMm2(shape.rings);
    const uOutline = shape.made === "found" ? undefined
      : Coverage.outlineUncertainty(shape, found.find(f => f.id === shape.id));
    return Object.freeze({
      ...shape,
      areaPx,
      areaMm2,
      uAreaMm2: areaMm2 === undefined || uOutline === undefined ? undefined
        : areaMm2 * Math.hypot(2 * Frame.relativeUncertainty, uOutline / areaPx),
      share: Frame.share(shape.rings),
    });
  }

  // What the survey's own uncertainty leaves for the outline, px2.
  function outlinePart(r) {
    if (r.u_area_mm2 === undefined) {
      return undefined;
    }
    const relative = r.u_area_mm2 / r.area_mm2;
    return r.area_px * Math.sqrt(Math.max(0, relative ** 2 - (2 * Frame.relativeUncertainty) ** 2));
  }

  const now = () => new Date().toISOString().replace(/\.\d+Z$/, "Z");
  const signed = shape => ({ ...shape, author: author || undefined, time: now() });

  function lean(shape) {
    if (shape.made === "found") {
      return { id: shape.id, made: "found", note: shape.note || undefined, author: shape.author,
        time: shape.time };
    }
    const { id, kind, partOf, cls, reason, rings, made, note, author: by, time, ground,
      placed } = shape;
    return { id, kind, partOf, cls, reason, rings, made, note, author: by, time, ground, placed };
  }

  function rich(lean) {
    const original = found.find(f => f.id === lean.id);
    if (lean.made === "found") {
      if (!original) {
        throw new Error("no region " + lean.id);
      }
      const note = checkedText(lean.note);
      return note || lean.time
        ? Object.freeze({ ...original, note, author: lean.author, time: lean.time }) : original;
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

  // Editors of tables write null for what is not set.
  const withoutNulls = s =>
    Object.fromEntries(Object.entries(s).filter(([, value]) => value !== null));

  const isPoint = p => Array.isArray(p) && p.length === 2
    && p.every(v => Number.isFinite(v) && Math.abs(v) < 1e7);

  function checkShape(s) {
    const good = typeof s.id === "string" && s.id !== "" && ["region", "array"].includes(s.kind)
      && Array.isArray(s.rings) && s.rings.length > 0
      && s.rings.every(ring => Array.isArray(ring) && ring.length >= 3 && ring.every(isPoint))
      && (s.kind === "array" ? typeof s.partOf === "string" : s.partOf === undefined)
      && layerOf(s) !== undefined;
    if (!good) {
      throw new Error("outline " + s.id + " cannot be read");
    }
  }

  // What must hold of all shapes together; the rest of the page relies on it.
  function checkList(list) {
    const regions = new Map();
    const ids = new Set();
    for (const s of list) {
      if (ids.has(s.id)) {
        throw new Error("two outlines are called " + s.id);
      }
      ids.add(s.id);
      if (s.kind === "region") {
        regions.set(s.id, s);
      }
    }
    for (const s of list.filter(x => x.kind === "array")) {
      const home = regions.get(s.partOf);
      if (home === undefined || home.cls !== "memory array") {
        throw new Error(s.id + " is a bit-cell array of " + s.partOf
          + ", but no memory array of that name is there");
      }
    }
    return list;
  }

  const readList = list => checkList(list.map(s => rich(withoutNulls(s))));

  // Texts for shapes, which never change, so each is made once.
  const texts = new WeakMap();
  function textOf(shape) {
    if (!texts.has(shape)) {
      texts.set(shape, JSON.stringify(lean(shape)));
    }
    return texts.get(shape);
  }

  function keep() {
    try {
      if (shapes === found && !author && past.length === 0) {
        Keeping.forget();
      } else {
        Keeping.write({ version: 1, author, shapes: shapes.map(lean) });
        clearTimeout(waiting);
        waiting = setTimeout(keepSteps, 400);
      }
      kept = true;
    } catch (e) {
      kept = false;
    }
  }

  // Later than the state, since a note changes with every letter.
  let waiting;

  function keepSteps() {
    clearTimeout(waiting);
    waiting = undefined;
    const flat = steps => steps.map(s => ({ ...s, shapes: s.shapes.map(textOf) }));
    try {
      Keeping.writeSteps(flat(past), flat(future));
    } catch (e) {
      // The corrections are kept; only the way back is not.
    }
  }

  function read(text) {
    const saved = JSON.parse(text);
    if (saved.version !== 1 || !Array.isArray(saved.shapes)) {
      throw new Error("another version");
    }
    return { author: checkedText(saved.author), shapes: readList(saved.shapes) };
  }

  function restore() {
    let text = null;
    try {
      text = Keeping.read();
    } catch (e) {
      kept = false;
    }
    if (text === null) {
      return;
    }
    try {
      ({ author, shapes } = read(text));
    } catch (e) {
      Keeping.setAside();
      return;
    }
    try {
      const known = new Map(); // one object for each text, as before the reload
      shapes.forEach(s => known.set(textOf(s), s));
      const full = steps => steps.map(step => ({ ...step, shapes: checkList(step.shapes.map(t => {
        if (!known.has(t)) {
          known.set(t, rich(JSON.parse(t)));
        }
        return known.get(t);
      })) }));
      const steps = Keeping.readSteps();
      [past, future] = [full(steps.past), full(steps.future)];
    } catch (e) {
      past = future = [];
    }
  }

  // Another window on the same survey wrote: its state is taken over, and undo brings ours back.
  function takeOver(text) {
    let theirs;
    try {
      theirs = text === null ? { author, shapes: found } : read(text);
    } catch (e) {
      return false;
    }
    past.push({ label: "what the other window did", shapes });
    future = [];
    ({ author, shapes } = theirs);
    tell();
    return true;
  }

  function tell() {
    listeners.forEach(listener => listener());
  }

  // Shows a list and then keeps it. What cannot be shown does not take the place of what can.
  function replace(list) {
    const before = shapes;
    shapes = list;
    try {
      tell();
    } catch (fault) {
      shapes = before;
      tell();
      throw fault;
    }
    keep();
  }

  // Whether another window changed the survey unseen; its state is shown then, and this window's
  // wish must be said again.
  function overtaken() {
    try {
      return Keeping.overtaken && takeOver(Keeping.read());
    } catch (e) {
      return false;
    }
  }

  // One step from one list of steps to the other.
  function step(words, from, to) {
    if (overtaken()) {
      say(OVERTAKEN);
      return;
    }
    const last = from().pop();
    if (last) {
      to().push({ label: last.label, shapes });
      replace(last.shapes);
      say(words + last.label + ".");
    }
  }

  restore();
  addEventListener("pagehide", () => waiting !== undefined && keepSteps());
  Keeping.onOther(text => {
    if (takeOver(text)) {
      say("Another window changed the corrections of this survey: they are shown here, too. Undo"
        + " brings back what was here.");
    }
  });

  return {
    found,
    measured,
    signed,
    checkShape,
    checkList,
    withoutNulls,
    get shapes() { return shapes; },
    get regions() { return shapes.filter(s => s.kind === "region"); },
    get kept() { return kept; },
    get author() { return author; },
    get undoLabel() { return past.length > 0 ? past[past.length - 1].label : ""; },
    get redoLabel() { return future.length > 0 ? future[future.length - 1].label : ""; },
    byId: id => shapes.find(s => s.id === id),
    arraysOf: id => shapes.filter(s => s.partOf === id),
    onChange: listener => listeners.push(listener),

    setAuthor(name) {
      if (overtaken()) {
        say(OVERTAKEN);
        return;
      }
      author = checkedText(name.trim());
      keep();
    },

    // Replaces the list; steps with the same joined label in a row become one step back.
    apply(label, list, joined = false) {
      if (overtaken()) {
        say(OVERTAKEN);
        return false;
      }
      const last = past[past.length - 1];
      const [pastBefore, futureBefore] = [past, future];
      if (!(joined && last && last.label === label && last.joined)) {
        past = [...past, { label, shapes, joined }].slice(-DEEP);
      }
      future = [];
      try {
        replace(list);
      } catch (fault) {
        [past, future] = [pastBefore, futureBefore];
        throw fault;
      }
      return true;
    },

    undo() {
      step("Undone: ", () => past, () => future);
    },

    redo() {
      step("Done again: ", () => future, () => past);
    },

    // The next free name of a class, as the survey gives them.
    freeId(cls, partOf, taken = shapes) {
      const letters = partOf ? partOf + "." : Survey.layers.find(l => l.class === cls).short;
      let n = 1;
      while (taken.some(s => s.id === letters + n) || found.some(s => s.id === letters + n)) {
        n++;
      }
      return letters + n;
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
