// The changes over the picture: where a block was, where it is, and which one is chosen.

const Marks = (() => {
  const view = { before: true, after: true, names: true, different: false, unjudged: false };
  const hidden = new Set(); // ids of kinds that are off
  const group = L.layerGroup().addTo(Picture.map);
  const drawn = new Map(); // id of a change -> its lines
  const listeners = [];
  let chosen = null, pointed = null;

  const byId = id => Pair.changes.find(c => c.id === id);
  const kindOf = c => Pair.kinds.find(k => k.id === c.kind);
  const visible = c => !hidden.has(c.kind);
  const places = c => [...c.before, ...c.after];
  const options = { smoothFactor: 0, interactive: false, fill: false, noClip: true };

  function squares(list, className) {
    const rings = list.map(([a, b, c, d]) => [[-b, a], [-b, c], [-d, c], [-d, a]]);
    if (rings.length > 0) {
      group.addLayer(L.polygon(rings.map(r => [r]), { ...options, fill: true, className }));
    }
  }

  function outline(c, outlines, name) {
    if (outlines.length === 0) {
      return;
    }
    for (const part of ["-under", "-line"]) {
      const line = L.polygon(Picture.latLngs(outlines), { ...options, className: name + part });
      group.addLayer(line);
      drawn.get(c.id).push(line);
    }
  }

  const middle = outlines => {
    const [a, b, c, d] = Frame.box(outlines);
    return [(a + c) / 2, (b + d) / 2];
  };

  // The way of a moved block, from the middle of where it was to where it is.
  function way(c) {
    if (c.kind === "moved" && c.before.length > 0 && c.after.length > 0) {
      const ends = [middle(c.before), middle(c.after)].map(Picture.latLng);
      for (const className of ["way-under", "way"]) {
        group.addLayer(L.polyline(ends, { ...options, className }));
      }
    }
  }

  function name(c) {
    const outlines = view.after && c.after.length > 0 ? c.after : c.before;
    if (outlines.length === 0) {
      return;
    }
    const [a, b, x] = Frame.box(outlines);
    const text = element("span", {}, kindOf(c).sign + " " + c.id);
    const mark = L.marker(Picture.latLng([(a + x) / 2, b]), { interactive: false, keyboard: false,
      icon: L.divIcon({ className: "name-plate", html: text, iconSize: null }) });
    mark.of = c.id;
    group.addLayer(mark);
  }

  // Of labels that lie on one another the first stays, and always that of the chosen change.
  function thin() {
    const marks = [];
    group.eachLayer(layer => layer.of !== undefined && layer.getElement() && marks.push(layer));
    marks.sort((m, n) => (n.of === chosen) - (m.of === chosen));
    const taken = [];
    for (const mark of marks) {
      mark.getElement().classList.remove("no-room");
      const box = mark.getElement().firstChild.getBoundingClientRect();
      const free = taken.every(t => box.right < t.left || box.left > t.right
        || box.bottom < t.top || box.top > t.bottom);
      mark.getElement().classList.toggle("no-room", !free);
      if (free) {
        taken.push(box);
      }
    }
  }

  Picture.map.on("zoomend", thin);

  function draw() {
    group.clearLayers();
    drawn.clear();
    if (view.unjudged) {
      squares(Pair.unjudged, "unjudged");
    }
    if (view.different) {
      squares(Pair.different, "differs");
    }
    for (const c of Pair.changes.filter(visible)) {
      drawn.set(c.id, []);
      if (view.before && view.after) {
        way(c);
      }
      if (view.before) {
        outline(c, c.before, "before");
      }
      if (view.after) {
        outline(c, c.after, "after");
      }
      if (view.names && (view.before || view.after)) {
        name(c);
      }
    }
    emphasise();
  }

  function emphasise() {
    drawn.forEach((lines, id) => lines.forEach(l => {
      const e = l.getElement();
      if (e) {
        e.classList.toggle("chosen", id === chosen);
        e.classList.toggle("pointed", id === pointed);
      }
    }));
    thin();
  }

  return {
    view,
    hidden,
    draw,
    visible,
    kindOf,
    places,
    onChoice: listener => listeners.push(listener),
    get chosenId() { return chosen; },
    get chosen() { return chosen === null ? undefined : byId(chosen); },

    choose(id, aloud = true) {
      chosen = id;
      emphasise();
      listeners.forEach(l => l());
      const c = Marks.chosen;
      if (c && aloud) {
        say(c.id + ", " + kindOf(c).name + ". " + c.sentence);
      }
    },

    point(id) {
      if (pointed !== id) {
        pointed = id;
        emphasise();
        document.querySelectorAll("#ledger tr").forEach(row =>
          row.classList.toggle("pointed", row.dataset.id !== undefined && row.dataset.id === id));
      }
    },

    // The smallest change at a place.
    under(p) {
      return Pair.changes
        .filter(c => visible(c) && (view.before && Frame.inside(c.before, p)
          || view.after && Frame.inside(c.after, p)))
        .sort((a, b) => Frame.area(places(a)) - Frame.area(places(b)))[0];
    },
  };
})();
