// Pointer and keyboard on the picture.

const Keys = (() => {
  const STEPS = { far: 64, near: 8 }; // screen px
  const { map, pane } = Picture;

  map.on("click", e => {
    pane.focus({ preventScroll: true });
    const c = Marks.under(Picture.toPicture(e.latlng));
    Marks.choose(c ? c.id : null);
    if (!c) {
      say("No change here.");
    }
  });
  map.on("mousemove", e => {
    const p = Picture.toPicture(e.latlng);
    ScaleBar.read(p);
    const c = Marks.under(p);
    Marks.point(c ? c.id : null);
  });
  map.on("mouseout", () => {
    Marks.point(null);
    ScaleBar.read(null);
  });

  onKeys(pane, {
    ...movingKeys(map, e => e.shiftKey ? STEPS.near : STEPS.far),
    w: () => Picture.whole(false),
    g: () => Marks.chosen && Picture.show(Marks.places(Marks.chosen)),
    Escape: () => Marks.choose(null),
    d: () => Views.set("divided"),
    m: () => Views.set("mixed"),
    t: () => Views.set("turns"),
    x: () => Views.view === "turns" && Views.turn(),
    o: () => Legend.outlines(),
    "[": () => Views.step(-0.05),
    "]": () => Views.step(0.05),
  });

  return {};
})();
