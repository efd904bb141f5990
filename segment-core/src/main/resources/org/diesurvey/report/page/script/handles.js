// Corners and sides of the chosen outline that can be taken and moved, by pointer or by keyboard.

const Handles = (() => {
  const REACH = 12; // screen px within which right angles and edges catch
  const TAKE = 40; // screen px within which the cross takes a corner or side
  let held = null; // {kind, ring, corner, start, rings}: what is being moved
  let marked = null; // {ring, corner}: the corner that "Remove corner" means

  const options = () => ({ hold: at("hold").checked, edges: at("edges").checked });
  const reach = () => REACH * Picture.pxPerScreenPx();

  // Where a side would lie on the picture's own edge, as an offset along its normal.
  function edgeOffset(rings, r, c) {
    const ring = rings[r];
    return Edges.offset(ring[c], ring[(c + 1) % ring.length], Reshape.normal(rings, r, c), reach(),
      Picture.pxPerScreenPx());
  }

  function cornerTo(p, exact) {
    const { ring: r, corner: c, rings } = held;
    const { hold, edges } = options();
    const n = rings[r].length;
    // Neighbours along a die axis follow; the others are what one may come into line with.
    const others = [rings[r][(c + n - 1) % n], rings[r][(c + 1) % n]]
      .filter(o => Reshape.axis(o, rings[r][c]) === undefined);
    let to = p;
    if (!exact && hold) {
      to = Reshape.intoLine(to, others, reach() * 0.6);
    }
    let next = Reshape.corner(rings, r, c, to, hold);
    if (!exact && edges) {
      for (const side of [(c + n - 1) % n, c]) {
        const direction = Reshape.axis(next[r][side], next[r][(side + 1) % n]);
        if (direction) {
          const by = edgeOffset(next, r, side);
          if (by !== undefined) {
            to = Reshape.moved(to, direction === "x" ? Frame.y : Frame.x, by);
          }
        }
      }
      next = Reshape.corner(rings, r, c, to, hold);
    }
    return next;
  }

  function sideTo(p, exact) {
    const { ring: r, corner: c, rings, start } = held;
    const unit = Reshape.normal(rings, r, c);
    const by = Reshape.along(p, start, unit);
    let next = Reshape.side(rings, r, c, by);
    if (!exact && options().edges) {
      // The moved side begins one corner later where a step formed before it.
      const first = next[r].length > rings[r].length
        && Reshape.axis(rings[r][(c + rings[r].length - 1) % rings[r].length], rings[r][c])
          === Reshape.axis(rings[r][c], rings[r][(c + 1) % rings[r].length]) ? c + 1 : c;
      const catchBy = edgeOffset(next, r, first);
      if (catchBy !== undefined) {
        next = Reshape.side(rings, r, c, by + catchBy);
      }
    }
    return next;
  }

  function take(kind, ring, corner, start) {
    held = { kind, ring, corner, start, rings: Shapes.chosen.rings, next: Shapes.chosen.rings };
    marked = kind === "corner" ? { ring, corner } : null;
    Edges.prepare(start, reach(), Picture.pxPerScreenPx());
  }

  function moveTo(p, exact) {
    held.next = held.kind === "corner" ? cornerTo(p, exact) : sideTo(p, exact);
    Shapes.preview(Shapes.chosenId, held.next);
    Picture.redraw();
  }

  function drop() {
    const { next, rings, kind } = held;
    held = null;
    if (next !== rings) {
      Correction.reshape(Shapes.chosenId, next, kind === "corner" ? "move a corner" : "move a side");
    }
    Picture.redraw();
  }

  function giveUp() {
    if (held) {
      Shapes.preview(Shapes.chosenId, held.rings);
      held = null;
      Picture.redraw();
    }
  }

  function grab(e, kind, ring, corner) {
    if (e.button !== 0) {
      return;
    }
    e.preventDefault();
    e.stopPropagation();
    Picture.pane.focus({ preventScroll: true });
    take(kind, ring, corner, Picture.under(e));
    const move = m => {
      if (held) {
        moveTo(Picture.under(m), m.altKey);
        ScaleBar.read(Picture.under(m));
      }
    };
    const up = () => {
      removeEventListener("pointermove", move);
      removeEventListener("pointerup", up);
      removeEventListener("pointercancel", up);
      if (held) {
        drop();
      }
    };
    addEventListener("pointermove", move);
    addEventListener("pointerup", up);
    addEventListener("pointercancel", up);
  }

  function handle(kind, r, c, shape, attributes) {
    const e = drawing(shape, { class: "handle " + kind
      + (marked && kind === "corner" && marked.ring === r && marked.corner === c ? " marked" : ""),
    "data-ring": r, "data-corner": c, ...attributes });
    e.addEventListener("pointerdown", down => grab(down, kind, r, c));
    return e;
  }

  function sides(ring, r) {
    return ring.map((p, c) => {
      const [x, y] = Picture.onScreen(p), [u, v] = Picture.onScreen(ring[(c + 1) % ring.length]);
      const long = Math.hypot(u - x, v - y);
      if (long < 34) {
        return null;
      }
      const half = Math.min(11, long / 6) / long;
      const mx = (x + u) / 2, my = (y + v) / 2;
      return handle("side", r, c, "line", { x1: mx - half * (u - x), y1: my - half * (v - y),
        x2: mx + half * (u - x), y2: my + half * (v - y) });
    }).filter(e => e);
  }

  function corners(ring, r) {
    return ring.map((p, c) => {
      const [x, y] = Picture.onScreen(p);
      return handle("corner", r, c, "rect", { x: x - 5, y: y - 5, width: 10, height: 10 });
    });
  }

  Picture.drawOver(() => {
    if (Modes.mode !== "edit" || !Shapes.chosen || Correction.task) {
      return [];
    }
    const rings = held ? held.next : Shapes.chosen.rings;
    return [...rings.flatMap(sides), ...rings.flatMap(corners)];
  });

  Store.onChange(() => { marked = null; });
  Shapes.onChoice(() => {
    giveUp();
    marked = null;
  });

  return {
    get held() { return held; },
    get marked() { return marked; },
    giveUp,
    drop,

    // Takes what is nearest to the cross.
    takeAt(p) {
      const rings = Shapes.chosen.rings;
      const corner = Geometry.nearestCorner(rings, p);
      const side = Geometry.nearestSide(rings, p);
      const near = TAKE * Picture.pxPerScreenPx();
      if (corner.distance <= near) {
        take("corner", corner.ring, corner.corner, rings[corner.ring][corner.corner]);
        Picture.map.panTo(Picture.latLng(held.start), { animate: false });
        say("Corner taken. Move with the arrows; Enter puts it down, Escape leaves it as it was.");
      } else if (side.distance <= near) {
        take("side", side.ring, side.corner, p);
        say("Side taken. Move with the arrows; Enter puts it down, Escape leaves it as it was.");
      } else {
        say("No corner or side of " + Shapes.chosenId + " is near the cross.");
      }
    },

    follow(p) {
      if (held) {
        moveTo(p, false);
      }
    },

    // The corner nearest to a place, for removal.
    mark(p) {
      const near = Geometry.nearestCorner(Shapes.chosen.rings, p);
      if (near.distance <= TAKE * Picture.pxPerScreenPx()) {
        marked = near;
        Picture.redraw();
      }
      return marked;
    },
  };
})();
