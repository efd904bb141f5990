// The picture pane: the viewer, places on the screen, and a drawing over it for handles and tapes.

const Picture = (() => {
  document.documentElement.classList.add("live");
  at("desk").hidden = false;
  const pane = at("plate");
  const { width_px: width, height_px: height } = Survey.photo;
  const dieBounds = bounds(Geometry.box([Survey.die.outline_px]));

  const map = viewer(pane, L.latLngBounds([0, 0], [-height, width]), {
    zoomSnap: 0.25,
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
    redraw();
  });

  return {
    map,
    pane,
    redraw,
    latLng: p => L.latLng(-p[1], p[0]),
    latLngs: rings => rings.map(ring => ring.map(p => [-p[1], p[0]])),
    toPhoto: latLng => [latLng.lng, -latLng.lat],

    onScreen(p) {
      const q = map.latLngToContainerPoint(Picture.latLng(p));
      return [q.x, q.y];
    },

    fromScreen(x, y) {
      return Picture.toPhoto(map.containerPointToLatLng(L.point(x, y)));
    },

    // The place under a pointer.
    under(event) {
      const box = pane.getBoundingClientRect();
      return Picture.fromScreen(event.clientX - box.left - pane.clientLeft,
        event.clientY - box.top - pane.clientTop);
    },

    centre: () => Picture.toPhoto(map.getCenter()),
    pxPerScreenPx: () => 2 ** -map.getZoom(),

    // A function that gives drawings for the layer above the picture.
    drawOver(draw) {
      drawers.push(draw);
    },

    whole(animate = true) {
      map.fitBounds(dieBounds, { padding: [12, 12], animate });
    },

    // The picture with its tools alone on the screen, and back.
    fullScreen() {
      if (document.fullscreenElement) {
        document.exitFullscreen();
      } else {
        pane.parentElement.requestFullscreen().catch(() => say("This browser gives no full screen."));
      }
    },

    show(rings) {
      map.fitBounds(bounds(Geometry.box(rings)).pad(0.35), { maxZoom: 1 });
    },

    reveal: rings => reveal(map, Geometry.box(rings)),
  };
})();
