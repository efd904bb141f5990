// The picture pane: the viewer with both photographs, one over the other.

const Plate = (() => {
  document.documentElement.classList.add("live");
  at("desk").hidden = false;
  const pane = at("plate");
  const { width_px: width, height_px: height } = Pair;
  const bounds = L.latLngBounds([0, 0], [-height, width]);

  const map = L.map(pane, {
    crs: L.CRS.Simple,
    zoomControl: false,
    attributionControl: false,
    keyboard: false, // keys.js moves the picture, and says so
    doubleClickZoom: false,
    boxZoom: false,
    zoomSnap: 0.05, // the whole die fills the pane
    wheelPxPerZoomLevel: 100,
    maxZoom: 5,
    minZoom: -12,
    maxBounds: bounds.pad(0.6),
    renderer: L.svg({ padding: 0.5 }),
    zoomAnimation: false, // the divider stays where it is while the picture grows
  });
  map.fitBounds(bounds, { animate: false });

  function photo(name, order) {
    const sheet = map.createPane(name);
    sheet.style.zIndex = order;
    sheet.classList.add(name);
    L.imageOverlay("data:image/jpeg;base64," + readJson(name), bounds,
      { pane: name, alt: "" }).addTo(map);
    return sheet;
  }

  const earlier = photo("earlier-photo", 210);
  const later = photo("later-photo", 220);
  map.on("zoomend", () => pane.classList.toggle("coarse", map.getZoom() >= 2));
  new ResizeObserver(() => map.invalidateSize({ pan: false })).observe(pane);

  return {
    map,
    pane,
    earlier,
    later,
    latLng: p => L.latLng(-p[1], p[0]),
    latLngs: outlines => outlines.map(rings => rings.map(ring => ring.map(p => [-p[1], p[0]]))),
    toPicture: latLng => [latLng.lng, -latLng.lat],
    pxPerScreenPx: () => 2 ** -map.getZoom(),

    whole(animate = true) {
      map.fitBounds(bounds, { animate });
    },

    show(outlines) {
      const [a, b, c, d] = Frame.box(outlines);
      map.fitBounds(L.latLngBounds([-b, a], [-d, c]).pad(0.8), { maxZoom: 2, animate: false });
    },

    // Brings outlines into view, if no part of them can be seen.
    reveal(outlines) {
      const [a, b, c, d] = Frame.box(outlines);
      if (!map.getBounds().intersects(L.latLngBounds([-b, a], [-d, c]))) {
        map.panTo(L.latLng(-(b + d) / 2, (a + c) / 2), { animate: false });
      }
    },
  };
})();
