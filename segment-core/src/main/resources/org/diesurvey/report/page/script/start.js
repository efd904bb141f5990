// Everything is there: begin.

Legend.start();
Shapes.draw();
Modes.start();
ResultTable.start();
Correction.start();
Rulers.start();
Details.start();
Changes.start();
Save.start();
PictureFile.start();
at("closer").addEventListener("click", () => Picture.map.zoomIn(1));
at("farther").addEventListener("click", () => Picture.map.zoomOut(1));
at("whole").addEventListener("click", () => Picture.whole());
at("to-region").addEventListener("click", () =>
  Shapes.chosen ? Picture.show(Shapes.chosen.rings) : say("Choose a region first."));
at("copy").addEventListener("click", () => {
  const box = element("textarea", { class: "unseen" });
  box.value = ResultTable.text();
  document.body.append(box);
  box.select();
  const done = document.execCommand("copy"); // works for files too, where newer ways may not
  box.remove();
  at("copy").focus();
  say(done ? "The table is copied; paste it into a spreadsheet." : "This browser did not copy it.");
});
at("full").addEventListener("click", () => Picture.fullScreen());
Modes.set("view");
Picture.map.invalidateSize();
Picture.whole(false);
say(Keeping.aside.length > 0
  ? "Corrections kept in this browser could not be read: see the notice above the picture."
  : Store.changes().length > 0
  ? "Your corrections from before are here." : "Drag to move, turn the wheel to zoom; click a region to choose it.");

// A link ending in #MEM2 shows that region, and the address follows the choice.
function follow() {
  const s = Store.byId(decodeURIComponent(location.hash.slice(1)));
  if (s && s.id !== Shapes.chosenId) {
    Shapes.choose(s.id);
    Picture.show(s.rings);
  }
}

follow();
addEventListener("hashchange", follow);
Shapes.onChoice(() => history.replaceState(null, "", "#" + encodeURIComponent(Shapes.chosenId || "")));
