// The ground that shapes cover: sound outlines, and what happens to shapes beside a changed one.
// Lists of shapes in, lists out; whatever a change takes from others is accounted for, and a change
// whose areas do not add up is refused.

const Coverage = (() => {
  const LEAST_PX2 = 16; // smaller pieces are specks
  const THIN_PX = 0.05; // so are pieces that are narrower than this on average
  const BALANCE = Frame.scaled ? 0.1 / Frame.pitch ** 2 : 0.5; // px2, that is 0.1 um2
  const PLACED = 1.5; // screen px; how well a person places a side, k = 1

  const total = list => list.reduce((sum, rings) => sum + Geometry.area(rings), 0);

  const perimeter = rings => rings.reduce((sum, ring) => sum + ring.reduce((s, p, i) =>
    s + Geometry.distance(p, ring[(i + 1) % ring.length]), 0), 0);

  const isThin = rings => 2 * Geometry.area(rings) < THIN_PX * perimeter(rings);
  const isSpeck = rings => Geometry.area(rings) < LEAST_PX2 || isThin(rings);

  // How well the sides placed now are placed, px.
  const placedNow = () => PLACED * Picture.pxPerScreenPx();

  const changed = (old, parts) => Store.measured(Store.signed({
    ...old, um: undefined, ground: undefined, made: old.made === "drawn" ? "drawn" : "corrected",
    placed: old.made === "found" || old.placed !== undefined
      ? Math.max(old.placed || 0, placedNow()) : undefined,
    ...parts,
  }));

  const drawn = parts => Store.measured(Store.signed({ note: "", made: "drawn",
    placed: placedNow(), ...parts }));

  function clamped(rings) {
    const { width_px: w, height_px: h } = Survey.photo;
    return rings.map(ring => ring
      .map(([x, y]) => [Math.min(w, Math.max(0, x)), Math.min(h, Math.max(0, y))])
      .filter((p, i, all) => Geometry.distance(p, all[(i + all.length - 1) % all.length]) > 0.01));
  }

  function fault(rings) {
    if (rings.some(ring => ring.length < 3) || Geometry.area(rings) < LEAST_PX2) {
      return "The outline would have no area";
    }
    if (Geometry.crossesItself(rings)) {
      return "The outline would cross itself";
    }
    // A side moved past the next one turns a part of the ring inside out without a crossing.
    const folded = Math.abs(total(Clip.union(rings, rings)) - Geometry.area(rings));
    return folded > BALANCE + 1e-9 * Geometry.area(rings) ? "The outline would fold over itself" : "";
  }

  function requireBalance(name, before, after) {
    if (!(Math.abs(before - after) <= BALANCE + 1e-9 * before)) {
      throw new Error("the areas of " + name + " would not add up ("
        + Words.plainArea(before) + " before, " + Words.plainArea(after) + " after)");
    }
  }

  const apart = (a, b) => {
    const [p, q] = [Geometry.box(a), Geometry.box(b)];
    return p[2] <= q[0] || q[2] <= p[0] || p[3] <= q[1] || q[3] <= p[1];
  };

  // What lies inside and outside of another shape, once both together are the whole.
  function divided(s, by) {
    const inside = Clip.common(s.rings, by), outside = Clip.minus(s.rings, by);
    requireBalance(s.id, Geometry.area(s.rings), total(inside) + total(outside));
    return { inside, outside };
  }

  // Other regions lose the ground that a shape takes; parts that come off become regions. Adds a
  // sentence to told for each that lost something.
  function yielding(list, shape, told) {
    if (shape.kind !== "region" || !at("yield").checked) {
      return list;
    }
    const out = [];
    for (const s of list) {
      if (s.kind !== "region" || s.id === shape.id || apart(s.rings, shape.rings)) {
        out.push(s);
        continue;
      }
      const { inside, outside } = divided(s, shape.rings);
      if (inside.every(isThin)) {
        out.push(s); // sides in common, told to a hundredth of a px
        continue;
      }
      const parts = outside.filter(r => !isSpeck(r));
      if (parts.length === 0) {
        told.push(s.id + " lies under it and is gone");
        continue;
      }
      const made = [];
      parts.forEach((r, i) => made.push(i === 0 ? changed(s, { rings: r })
        : drawn({ id: Store.freeId(s.cls, undefined, [shape, ...list, ...out, ...made]), kind: "region",
          cls: s.cls, reason: s.reason, rings: r })));
      out.push(...made);
      told.push(s.id + " gives " + Words.plainArea(total(inside))
        + (made.length > 1 ? " and falls into " + made.map(m => m.id).join(", ") : ""));
      const specks = total(outside) - total(parts);
      if (specks > BALANCE) {
        told.push("specks of it, " + Words.plainArea(specks) + ", are dropped");
      }
    }
    return out;
  }

  // What of an array lies neither in its memory nor below damage, where arrays run on.
  function overhang(a, home, list) {
    return list.filter(s => s.cls === "unclear" && !apart(s.rings, a.rings)
        && ["damaged", "missing"].includes(s.reason))
      .reduce((rest, s) => rest.flatMap(r => Clip.minus(r, s.rings)), divided(a, home.rings).outside);
  }

  // Bit-cell arrays stay inside the memories whose outline changed, and go with those that went.
  function withArrays(list, told) {
    return list.reduce((out, a) => {
      if (a.kind !== "array") {
        return [...out, a];
      }
      const home = list.find(s => s.id === a.partOf);
      if (home !== undefined && home === Store.byId(home.id)) {
        return [...out, a];
      }
      const kept = home !== undefined && home.cls === "memory array";
      const outside = kept ? overhang(a, home, list) : [a.rings];
      const parts = kept ? outside.reduce((rest, r) => rest.flatMap(s => Clip.minus(s, r)),
        [a.rings]).filter(r => !isSpeck(r)) : [];
      if (outside.every(isThin)) {
        return [...out, a];
      }
      if (parts.length === 0) {
        told.push("bit-cell array " + a.id + " is gone with its ground");
        return out;
      }
      const made = [];
      parts.forEach((rings, i) => made.push(i === 0 ? changed(a, { rings })
        : drawn({ kind: "array", cls: a.cls, partOf: home.id, rings,
          id: Store.freeId("", home.id, [...list, ...out, ...made]) })));
      told.push("bit-cell array " + a.id + " loses " + Words.plainArea(total(outside)));
      return [...out, ...made];
    }, []);
  }

  // The standard uncertainty of an area by its outline, px2: sides that a person placed count with
  // their placing, sides that stayed with what the survey found for them; sides are independent of
  // one another, and each is off along its whole length. Undefined where nothing is known.
  function outlineUncertainty(shape, original) {
    const key = p => p[0].toFixed(2) + " " + p[1].toFixed(2);
    const squares = (rings, of) => rings.reduce((sum, ring) => sum + ring.reduce((s, p, i) => {
      const q = ring[(i + 1) % ring.length];
      return s + (Geometry.distance(p, q) * of(p, q)) ** 2;
    }, 0), 0);
    if (!(shape.placed >= 0)) {
      return undefined;
    }
    const stayed = new Set(original ? original.rings.flat().map(key) : []);
    const each = original && original.uOutlinePx2 !== undefined
      ? original.uOutlinePx2 / Math.sqrt(squares(original.rings, () => 1)) : shape.placed;
    return Math.sqrt(squares(shape.rings, (p, q) =>
      stayed.has(key(p)) && stayed.has(key(q)) ? each : shape.placed));
  }

  return { changed, drawn, clamped, fault, yielding, withArrays, divided, isSpeck, total,
    requireBalance, outlineUncertainty };
})();
