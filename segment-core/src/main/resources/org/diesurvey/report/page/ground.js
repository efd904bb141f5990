// The ground that shapes cover: sound outlines, and what happens to shapes beside a changed one.

const Ground = (() => {
  const LEAST_PX2 = 16;

  const changed = (old, parts) => Store.measured(Store.signed({
    ...old, um: undefined, ground: undefined, made: old.made === "drawn" ? "drawn" : "corrected",
    ...parts,
  }));

  const drawn = parts => Store.measured(Store.signed({ note: "", made: "drawn", ...parts }));

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
    return Geometry.crossesItself(rings) ? "The outline would cross itself" : "";
  }

  const apart = (a, b) => {
    const [p, q] = [Geometry.box(a), Geometry.box(b)];
    return p[2] <= q[0] || q[2] <= p[0] || p[3] <= q[1] || q[3] <= p[1];
  };

  const perimeter = rings => rings.reduce((sum, ring) => sum + ring.reduce((s, p, i) =>
    s + Geometry.distance(p, ring[(i + 1) % ring.length]), 0), 0);

  // Other regions lose the ground that a shape takes; parts that come off become regions.
  function yielding(list, shape) {
    if (shape.kind !== "region" || !at("yield").checked) {
      return list;
    }
    const slack = LEAST_PX2 + 0.05 * perimeter(shape.rings); // corners are told to 0.01 px
    const out = [];
    for (const s of list) {
      if (s.kind !== "region" || s.id === shape.id || apart(s.rings, shape.rings)) {
        out.push(s);
        continue;
      }
      const rest = Clip.minus(s.rings, shape.rings);
      if (s.areaPx - rest.reduce((sum, r) => sum + Geometry.area(r), 0) <= slack) {
        out.push(s);
        continue;
      }
      rest.filter(r => Geometry.area(r) > slack).forEach((r, i) => out.push(i === 0
        ? changed(s, { rings: r })
        : drawn({ id: Store.freeId(s.cls, undefined, [...list, ...out]), kind: "region",
          cls: s.cls, reason: s.reason, rings: r })));
    }
    return out;
  }

  // Bit-cell arrays stay inside the memories whose outline changed, and go with those that went.
  function withArrays(list) {
    return list.flatMap(a => {
      if (a.kind !== "array") {
        return [a];
      }
      const home = list.find(s => s.id === a.partOf);
      if (!home || home.cls !== "memory array") {
        return [];
      }
      if (home === Store.byId(home.id)) {
        return [a];
      }
      const inside = Clip.common(a.rings, home.rings);
      if (inside.length === 0) {
        return [];
      }
      return Math.abs(Geometry.area(inside[0]) - a.areaPx) < LEAST_PX2 + 0.05 * perimeter(a.rings)
        ? [a] : [changed(a, { rings: inside[0] })];
    });
  }

  return { changed, drawn, clamped, fault, yielding, withArrays };
})();
