// Pointer and keyboard on the picture.

const Keys = (() => {
  const STEPS = { far: 64, near: 8 }; // screen px
  const { map, pane } = Plate;

  map.on("click", e => {
    pane.focus({ preventScroll: true });
    const c = Marks.under(Plate.toPicture(e.latlng));
    Marks.choose(c ? c.id : null);
    if (!c) {
      say("No change here.");
    }
  });
  map.on("mousemove", e => {
    const p = Plate.toPicture(e.latlng);
    ScaleBar.read(p);
    const c = Marks.under(p);
    Marks.point(c ? c.id : null);
  });
  map.on("mouseout", () => {
    Marks.point(null);
    ScaleBar.read(null);
  });

  function pan(dx, dy, e) {
    const by = e.shiftKey ? STEPS.near : STEPS.far;
    map.panBy([dx * by, dy * by], { animate: false });
  }

  const plain = {
    ArrowLeft: e => pan(-1, 0, e),
    ArrowRight: e => pan(1, 0, e),
    ArrowUp: e => pan(0, -1, e),
    ArrowDown: e => pan(0, 1, e),
    "+": () => map.zoomIn(0.5, { animate: false }),
    "=": () => map.zoomIn(0.5, { animate: false }),
    "-": () => map.zoomOut(0.5, { animate: false }),
    w: () => Plate.whole(false),
    g: () => Marks.chosen && Plate.show(Marks.places(Marks.chosen)),
    ".": () => Ledger.step(1),
    ",": () => Ledger.step(-1),
    Escape: () => Marks.choose(null),
    d: () => Views.set("divided"),
    m: () => Views.set("mixed"),
    t: () => Views.set("turns"),
    x: () => Views.view === "turns" && Views.turn(),
    o: () => Legend.outlines(),
    "[": () => Views.step(-0.05),
    "]": () => Views.step(0.05),
  };

  pane.addEventListener("keydown", e => {
    if (e.target !== pane || e.metaKey || e.altKey || e.ctrlKey) {
      return;
    }
    const act = plain[e.key.length === 1 ? e.key.toLowerCase() : e.key];
    if (act) {
      e.preventDefault();
      act(e);
    }
  });

  return {};
})();
