// Everything is there: begin.

Legend.start();
Shapes.draw();
Modes.start();
Ledger.start();
Mend.start();
Tape.start();
Entry.start();
Changes.start();
Save.start();
at("closer").addEventListener("click", () => Plate.map.zoomIn(1));
at("farther").addEventListener("click", () => Plate.map.zoomOut(1));
at("whole").addEventListener("click", () => Plate.whole());
Modes.set("look");
Plate.map.invalidateSize();
Plate.whole(false);
say(Keeping.aside.length > 0
  ? "Corrections kept in this browser could not be read: see the notice above the picture."
  : Store.changes().length > 0
  ? "Your corrections from before are here." : "Drag to move, turn the wheel to zoom.");
