// Everything is there: begin.

Legend.start();
Marks.draw();
ResultTable.start();
Views.start();
at("closer").addEventListener("click", () => Picture.map.zoomIn(1));
at("farther").addEventListener("click", () => Picture.map.zoomOut(1));
at("whole").addEventListener("click", () => Picture.whole());
Picture.map.invalidateSize();
Picture.whole(false);
say("Drag to move, turn the wheel to zoom, drag the line to part the dies.");
