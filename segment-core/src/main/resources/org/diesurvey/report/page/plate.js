// The picture pane: the viewer, places on the screen, and a drawing over it for handles and tapes.

const Plate = (() => {
  document.documentElement.classList.add("live");
  at("desk").hidden = false;
  const pane = at("plate");
  const { width_px: width, height_px: height } = Survey.photo;
  const [x0, y0, x1, y1] = Geometry.box([Survey.die.outline_px]);
  const dieBounds = L.latLngBounds([-y0, x0], [-y1, x1]);

  const map = L.map(pane, {
    crs: L.CRS.Simple,
    zoomControl: false,
    attributionControl: false,
    keyboard: false, // keys.js moves the picture, and says so
    doubleClickZoom: false,
    boxZoom: false,
    zoomSnap: 0.25,
    wheelPxPerZoomLevel: 100,
    maxZoom: 5,
    minZoom: -12,
    maxBounds: L.latLngBounds([0, 0], [-height, width]).pad(0.6),
    renderer: L.svg({ padding: 0.5 }),
    zoomAnimation: !matchMedia("(prefers-reduced-motion: reduce)").matches,
  });
  map.fitBounds(dieBounds, { padding: [12, 12], animate: false });
  Pyramid.layer().addTo(map);

  const over = drawing("svg", { class: "over", "aria-hidden": "true" });
  pane.append(over);
  const drawers = [];

  function redraw() {
    over.replaceChildren(...drawers.flatMap(draw => draw()));
  }

  map.on("move viewreset resize", redraw);
  map.on("zoomstart", () => over.classList.add("away"));
  map.on("zoomend", () => {
    over.classList.remove("away");
    pane.classList.toggle("coarse", map.getZoom() >= 2); // single px are to be seen
    redraw();
  });
  // The pane follows the window; a photograph that was seen whole stays so.
  new ResizeObserver(() => map.invalidateSize({ pan: false })).observe(pane);

  return {
    map,
    pane,
    redraw,
    latLng: p => L.latLng(-p[1], p[0]),
    latLngs: rings => rings.map(ring => ring.map(p => [-p[1], p[0]])),
    toPhoto: latLng => [latLng.lng, -latLng.lat],

    onScreen(p) {
      const q = map.latLngToContainerPoint(Plate.latLng(p));
      return [q.x, q.y];
    },

    fromScreen(x, y) {
      return Plate.toPhoto(map.containerPointToLatLng(L.point(x, y)));
    },

    // The place under a pointer.
    under(event) {
      const box = pane.getBoundingClientRect();
      return Plate.fromScreen(event.clientX - box.left - pane.clientLeft,
        event.clientY - box.top - pane.clientTop);
    },

    centre: () => Plate.toPhoto(map.getCenter()),
    pxPerScreenPx: () => 2 ** -map.getZoom(),

    // A function that gives drawings for the layer above the picture.
    drawOver(draw) {
      drawers.push(draw);
    },

    whole(animate = true) {
      map.fitBounds(dieBounds, { padding: [12, 12], animate });
    },

    show(rings) {
      const [a, b, c, d] = Geometry.box(rings);
      map.fitBounds(L.latLngBounds([-b, a], [-d, c]).pad(0.35), { maxZoom: 1 });
    },

    // Brings a shape into view, if no part of it can be seen.
    reveal(rings) {
      const [a, b, c, d] = Geometry.box(rings);
      if (!map.getBounds().intersects(L.latLngBounds([-b, a], [-d, c]))) {
        map.panTo(L.latLng(-(b + d) / 2, (a + c) / 2));
      }
    },
  };
})();
