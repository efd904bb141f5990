// Pointer and keyboard on the picture. The keyboard works at the cross in the middle, which
// shows as soon as a key is used.

const Keys = (() => {
  const STEPS = { far: 64, near: 8, least: 1 }; // screen px
  const { map, pane } = Picture;

  const sight = element("div", { class: "sight", "aria-hidden": "true" });
  pane.append(sight);
  const aiming = on => sight.classList.toggle("on", on);

  function pick(p) {
    const list = Shapes.under(p, "region");
    const arrays = Shapes.under(p, "array");
    const top = list[0];
    // A second click on a chosen memory reaches the array inside it.
    const inner = top && top.id === Shapes.chosenId && arrays.find(a => a.partOf === top.id);
    Shapes.choose(inner ? inner.id : top ? top.id : null);
    if (!top) {
      say("No region here.");
    }
  }

  function act(p, exact) {
    if (Draw.task) {
      Draw.put(p, exact);
    } else if (Modes.mode === "measure") {
      Rulers.put(p);
    } else if (Correction.task === "merge") {
      const other = Shapes.under(p, "region").find(s => s.id !== Shapes.chosenId);
      if (other) {
        Correction.join(Shapes.chosen.partOf || Shapes.chosenId, other.id);
      } else {
        say("No other region here.");
      }
    } else if (!onOutline(p)) {
      pick(p);
    }
  }

  // While an outline is corrected, a click on it means the outline, not what lies beside it.
  function onOutline(p) {
    return Modes.mode === "edit" && Shapes.chosen !== undefined
      && Geometry.nearestSide(Shapes.chosen.rings, p).distance < 7 * Picture.pxPerScreenPx();
  }

  map.on("click", e => {
    pane.focus({ preventScroll: true });
    aiming(false);
    if (!Draw.swallows) {
      act(Picture.toPhoto(e.latlng), e.originalEvent.altKey);
    }
  });
  map.on("dblclick", e => {
    if (Draw.task) {
      Draw.close();
    } else if (Modes.mode === "measure") {
      Rulers.finish();
    } else if (Modes.mode === "edit" && Shapes.chosen) {
      const p = Picture.toPhoto(e.latlng);
      if (Geometry.nearestSide(Shapes.chosen.rings, p).distance < 12 * Picture.pxPerScreenPx()) {
        Correction.addCorner(p);
      }
    }
  });
  map.on("mousemove", e => {
    const p = Picture.toPhoto(e.latlng);
    aiming(false);
    ScaleBar.read(p);
    Rulers.follow(p);
    Draw.follow(p, e.originalEvent.altKey);
    const top = Shapes.under(p, "region")[0];
    Shapes.point(top ? top.id : null);
  });
  map.on("mouseout", () => {
    Shapes.point(null);
    ScaleBar.read(null);
  });
  map.on("move", () => {
    if (sight.classList.contains("on")) {
      const p = Picture.centre();
      ScaleBar.read(p);
      Rulers.follow(p);
      Draw.follow(p);
      Handles.follow(p);
    }
  });

  function enter() {
    if (Handles.held) {
      Handles.drop();
    } else if (Modes.mode === "edit" && !Correction.task && Shapes.chosen
        && Geometry.nearestSide(Shapes.chosen.rings, Picture.centre()).distance
          < 40 * Picture.pxPerScreenPx()) {
      Handles.takeAt(Picture.centre());
    } else {
      act(Picture.centre());
    }
  }

  function escape() {
    if (Handles.held) {
      Handles.giveUp();
      say("Left as it was.");
    } else if (Correction.task) {
      Correction.leave();
    } else if (Modes.mode === "measure" ) {
      Rulers.clear();
    } else {
      Shapes.choose(null);
    }
  }

  function remove() {
    const near = Handles.marked || Shapes.chosen && Handles.mark(Picture.centre());
    if (near) {
      Correction.removeCorner(near);
    }
  }

  const mending = act => () => Modes.mode === "edit" && !Handles.held && act();

  const plain = {
    ...movingKeys(map, e => e.ctrlKey ? STEPS.least : e.shiftKey ? STEPS.near : STEPS.far),
    w: () => Picture.whole(),
    g: () => Shapes.chosen && Picture.show(Shapes.chosen.rings),
    v: () => Modes.set("view"),
    m: () => Modes.set("measure"),
    e: () => Modes.set("edit"),
    x: () => Picture.fullScreen(),
    Enter: enter,
    Escape: escape,
    f: () => Draw.task ? Draw.close() : Modes.mode === "measure" && Rulers.finish(),
    Backspace: () => Draw.task ? Draw.back() : mending(remove)(),
    Delete: mending(remove),
    d: mending(() => Correction.begin("draw")),
    c: mending(() => Correction.begin("split")),
    j: mending(() => Correction.begin("merge")),
    i: mending(() => Shapes.chosen && Correction.addCorner(Picture.centre())),
    r: mending(() => at("hold").click()),
    s: mending(() => at("edges").click()),
  };

  onKeys(pane, plain, () => aiming(true), () => ScaleBar.read(Picture.centre()));

  document.addEventListener("keydown", e => {
    const typing = /^(TEXTAREA|SELECT)$/.test(e.target.tagName)
      || e.target.tagName === "INPUT" && !/^(checkbox|range|radio)$/.test(e.target.type);
    const key = e.key.toLowerCase();
    if ((e.ctrlKey || e.metaKey) && !typing && (key === "z" || key === "y")) {
      e.preventDefault();
      Handles.giveUp();
      Store[key === "y" || e.shiftKey ? "redo" : "undo"]();
    }
  });

  return {};
})();
