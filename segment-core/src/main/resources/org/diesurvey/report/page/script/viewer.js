// The viewer on a picture pane: places in px of the picture, y down.

const bounds = ([left, upper, right, lower]) => L.latLngBounds([-upper, left], [-lower, right]);

const viewer = (pane, picture, options) => {
  const map = L.map(pane, {
    crs: L.CRS.Simple,
    zoomControl: false,
    attributionControl: false,
    keyboard: false, // keys.js moves the picture, and says so
    doubleClickZoom: false,
    boxZoom: false,
    wheelPxPerZoomLevel: 100,
    maxZoom: 5,
    minZoom: -12,
    renderer: L.svg({ padding: 0.5 }),
    ...options,
  });
  // The middle of the pane stays on the picture; a fixed frame would draw the whole die back.
  map.on("moveend", () => {
    const c = map.getCenter();
    const inside = L.latLng(
      Math.min(picture.getNorth(), Math.max(picture.getSouth(), c.lat)),
      Math.min(picture.getEast(), Math.max(picture.getWest(), c.lng)));
    if (Math.abs(c.lat - inside.lat) + Math.abs(c.lng - inside.lng) > 1e-9) {
      map.panTo(inside, { animate: false });
    }
  });
  // Single px are to be seen.
  map.on("zoomend", () => pane.classList.toggle("coarse", map.getZoom() >= 2));
  // The pane follows the window; a picture that was seen whole stays so.
  new ResizeObserver(() => map.invalidateSize({ pan: false })).observe(pane);
  return map;
};

// Brings a box into view, if no part of it can be seen.
const reveal = (map, box, options) => {
  if (!map.getBounds().intersects(bounds(box))) {
    map.panTo(bounds(box).getCenter(), options);
  }
};

// What every picture's keys do; pan tells the step in screen px.
const movingKeys = (map, step) => {
  const pan = (dx, dy) => e => map.panBy([dx * step(e), dy * step(e)], { animate: false });
  return {
    ArrowLeft: pan(-1, 0),
    ArrowRight: pan(1, 0),
    ArrowUp: pan(0, -1),
    ArrowDown: pan(0, 1),
    "+": () => map.zoomIn(0.5, { animate: false }),
    "=": () => map.zoomIn(0.5, { animate: false }),
    "-": () => map.zoomOut(0.5, { animate: false }),
    ".": () => ResultTable.step(1),
    ",": () => ResultTable.step(-1),
  };
};

// Acts on the keys of a pane; before is called ahead of each that does something, after behind it.
const onKeys = (pane, keys, before = () => {}, after = () => {}) => {
  pane.addEventListener("keydown", e => {
    if (e.target !== pane || e.metaKey || e.altKey || e.ctrlKey && !e.key.startsWith("Arrow")) {
      return;
    }
    const act = keys[e.key.length === 1 ? e.key.toLowerCase() : e.key];
    if (act) {
      e.preventDefault();
      before();
      act(e);
      after();
    }
  });
};
