// The picture pane: the viewer with both photographs, one over the other.

const Picture = (() => {
  document.documentElement.classList.add("live");
  at("desk").hidden = false;
  const pane = at("plate");
  const { width_px: width, height_px: height } = Pair;
  const whole = L.latLngBounds([0, 0], [-height, width]);

  const map = viewer(pane, whole, {
    zoomSnap: 0.05, // the whole die fills the pane
    zoomAnimation: false, // the divider stays where it is while the picture grows
  });
  map.fitBounds(whole, { animate: false });

  function photo(name, order) {
    const sheet = map.createPane(name);
    sheet.style.zIndex = order;
    sheet.classList.add(name);
    L.imageOverlay("data:image/jpeg;base64," + readJson(name), whole,
      { pane: name, alt: "" }).addTo(map);
    return sheet;
  }

  const earlier = photo("earlier-photo", 210);
  const later = photo("later-photo", 220);

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
      map.fitBounds(whole, { animate });
    },

    show(outlines) {
      map.fitBounds(bounds(Frame.box(outlines)).pad(0.8), { maxZoom: 2, animate: false });
    },

    reveal: outlines => reveal(map, Frame.box(outlines), { animate: false }),
  };
})();
