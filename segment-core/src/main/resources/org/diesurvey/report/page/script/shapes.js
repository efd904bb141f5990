// The regions over the picture: which are shown, how they look, which one is chosen.

const Shapes = (() => {
  const hidden = new Set(); // names of layers that are off
  const view = { byConfidence: false, arrays: true, edge: true, names: true };
  const group = L.layerGroup().addTo(Picture.map);
  const drawn = new Map(); // id -> the two lines of a shape
  let chosen = null, pointed = null;
  const listeners = [];

  const inShownClass = s => !hidden.has(layerOf(s).name);
  const visible = s => s.kind === "array"
    ? view.arrays && inShownClass(Store.byId(s.partOf) || s) : inShownClass(s);

  function draw() {
    group.clearLayers();
    drawn.clear();
    const order = Store.shapes.filter(visible).sort((a, b) =>
      (a.kind === "array") - (b.kind === "array") || b.areaPx - a.areaPx);
    order.forEach(outline);
    if (view.edge && Survey.die.edge_found) {
      const ring = Picture.latLngs([Survey.die.outline_px]);
      for (const className of ["edge-under", "edge-line"]) {
        group.addLayer(L.polygon(ring, { className, fill: false, interactive: false,
          noClip: true }));
      }
    }
    if (view.names) {
      order.filter(s => s.kind === "region").forEach(name);
    }
    emphasise();
  }

  function outline(s) {
    const look = Hatches.look(s, view.byConfidence);
    const array = s.kind === "array";
    const options = { smoothFactor: 0, interactive: false };
    const rings = Picture.latLngs(s.rings);
    const under = L.polygon(rings,
      { ...options, className: array ? "array-under" : "shape-under", fill: false });
    const line = L.polygon(rings, { ...options, fill: !array, fillOpacity: 1, fillColor: look.fill,
      color: array ? undefined : look.line,
      className: array ? "array-line" : s.cls === "unclear" ? "shape-line unclear" : "shape-line" });
    group.addLayer(under);
    group.addLayer(line);
    drawn.set(s.id, [under, line]);
  }

  const places = new WeakMap(); // shapes never change, so their labels stay where they are

  function name(s) {
    if (!places.has(s)) {
      places.set(s, Geometry.labelPlace(s.rings));
    }
    const place = places.get(s);
    const text = element("span", {}, s.id + (s.made === "found" ? "" : "*"));
    const mark = L.marker(Picture.latLng(place.at), {
      interactive: false,
      keyboard: false,
      icon: L.divIcon({ className: "name-plate", html: text, iconSize: null }),
    });
    mark.room = place.room;
    mark.of = s.id;
    group.addLayer(mark);
  }

  // Names show where there is room for them and no larger region's name is in the way, and always
  // for the chosen region.
  function thin() {
    const marks = [];
    group.eachLayer(layer => {
      const plate = layer.room !== undefined && layer.getElement();
      if (plate) {
        const room = layer.room / Picture.pxPerScreenPx();
        const shown = room >= 6 || layer.of === chosen;
        plate.classList.toggle("small", room < 11);
        plate.classList.toggle("no-room", !shown);
        marks.push(...shown ? [{ plate, first: layer.of === chosen }] : []);
      }
    });
    const kept = [];
    marks.sort((a, b) => b.first - a.first)
      .map(m => [m.plate, m.plate.firstElementChild.getBoundingClientRect()])
      .forEach(([plate, box]) => {
        const free = kept.every(k => box.right <= k.left || k.right <= box.left
          || box.bottom <= k.top || k.bottom <= box.top);
        plate.classList.toggle("no-room", !free);
        kept.push(...free ? [box] : []);
      });
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
    Picture.redraw();
  }

  Picture.map.on("zoomend", thin);
  Store.onChange(() => {
    if (chosen && !Store.byId(chosen)) {
      chosen = null;
      tell();
    }
    draw();
  });

  function tell() {
    listeners.forEach(l => l());
  }

  return {
    view,
    hidden,
    draw,
    visible,
    // Whether the name of a region stands in the picture.
    named(id) {
      let shown = false;
      group.eachLayer(layer => {
        const plate = layer.of === id && layer.getElement();
        shown = shown || Boolean(plate && !plate.classList.contains("no-room"));
      });
      return shown;
    },
    onChoice: listener => listeners.push(listener),
    get chosenId() { return chosen; },
    get chosen() { return chosen === null ? undefined : Store.byId(chosen); },

    choose(id, aloud = true) {
      chosen = id;
      emphasise();
      tell();
      const s = Shapes.chosen;
      if (s && aloud) {
        say(s.id + ", " + (s.kind === "array" ? "bit-cell array" : Words.className(s)) + ", "
          + Words.area(s) + (s.confidence === undefined || layerOf(s).reason === "undecided" ? ""
            : ", confidence " + Words.probability(s.confidence)) + ".");
      }
    },

    point(id) {
      if (pointed !== id) {
        pointed = id;
        emphasise();
        document.querySelectorAll("#ledger tr.pointed")
          .forEach(row => row.classList.remove("pointed"));
        const row = id && document.querySelector('#ledger tr[data-id="' + CSS.escape(id) + '"]');
        if (row) {
          row.classList.add("pointed");
        }
      }
    },

    // What lies at a place, smallest first.
    under(p, kind) {
      return Store.shapes
        .filter(s => (!kind || s.kind === kind) && visible(s) && Geometry.inside(s.rings, p))
        .sort((a, b) => a.areaPx - b.areaPx);
    },

    // Shows other corners for a shape while they are being moved.
    preview(id, rings) {
      for (const line of drawn.get(id) || []) {
        line.setLatLngs(Picture.latLngs(rings));
      }
    },
  };
})();
