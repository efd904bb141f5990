(function () {
  "use strict";
  var table = document.querySelector("table.photos");
  if (!table) { return; }
  var body = table.tBodies[0];
  var rows = Array.prototype.slice.call(body.rows);
  var words = document.getElementById("words");
  var count = document.getElementById("count");
  words.parentElement.hidden = false;
  words.addEventListener("input", function () {
    var wanted = words.value.toLowerCase().split(/\s+/).filter(Boolean);
    var shown = 0;
    rows.forEach(function (row) {
      var text = row.textContent.toLowerCase();
      row.hidden = !wanted.every(function (w) { return text.indexOf(w) >= 0; });
      shown += row.hidden ? 0 : 1;
    });
    count.textContent = shown + " of " + rows.length + " shown";
  });
  Array.prototype.forEach.call(table.tHead.rows[0].cells, function (cell, column) {
    var button = cell.querySelector("button");
    if (!button) { return; }
    button.addEventListener("click", function () {
      var down = cell.getAttribute("aria-sort") === "ascending";
      Array.prototype.forEach.call(table.tHead.rows[0].cells, function (c) { c.removeAttribute("aria-sort"); });
      cell.setAttribute("aria-sort", down ? "descending" : "ascending");
      rows.sort(function (a, b) {
        var x = a.cells[column].dataset.v, y = b.cells[column].dataset.v;
        if (x === "" || y === "") { return x === y ? 0 : x === "" ? 1 : -1; }
        var n = cell.classList.contains("n") ? Number(x) - Number(y) : x.localeCompare(y);
        return down ? -n : n;
      });
      rows.forEach(function (row) { body.appendChild(row); });
    });
  });
})();
