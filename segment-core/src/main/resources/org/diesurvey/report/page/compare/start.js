// Everything is there: begin.

Legend.start();
Marks.draw();
Ledger.start();
Views.start();
at("closer").addEventListener("click", () => Plate.map.zoomIn(1));
at("farther").addEventListener("click", () => Plate.map.zoomOut(1));
at("whole").addEventListener("click", () => Plate.whole());
Plate.map.invalidateSize();
Plate.whole(false);
say("Drag to move, turn the wheel to zoom, drag the line to part the dies.");
