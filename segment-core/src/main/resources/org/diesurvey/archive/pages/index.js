(function () {
  "use strict";
  var table = document.querySelector("table.photos");
  if (!table) { return; }
  var body = table.tBodies[0];
  var rows = Array.prototype.slice.call(body.rows);
  var words = document.getElementById("words");
  var count = document.getElementById("count");
  words.parentElement.hidden = false;
  var heads = Array.prototype.map.call(table.tHead.rows[0].cells, function (cell) {
    return cell.textContent.toLowerCase().replace(/[^a-z]/g, "");
  });
  // The column of figures with this title, else the first whose title begins so; -1 without any.
  function figures(name) {
    var own = heads.map(function (h, i) {
      return table.tHead.rows[0].cells[i].classList.contains("n") ? h : "";
    });
    var exact = own.indexOf(name);
    return exact >= 0 ? exact : own.findIndex(function (h) { return h.indexOf(name) === 0; });
  }
  // "memory > 40": rows by a figure as it is shown.
  function condition(name, sign, number) {
    var column = figures(name);
    return { column: column, name: name, holds: function (row) {
      var cell = row.cells[column];
      if (column < 0 || cell.dataset.v === "") { return false; }
      var v = Number(cell.dataset.v) * (cell.textContent.indexOf("%") >= 0 ? 100 : 1);
      return sign === ">" ? v > number : sign === "<" ? v < number
        : sign === ">=" ? v >= number : sign === "<=" ? v <= number : Math.abs(v - number) < 1e-9;
    } };
  }
  words.addEventListener("input", function () {
    var conditions = [];
    var rest = words.value.toLowerCase().replace(/([a-z]+)\s*(>=|<=|>|<|=)\s*([0-9]*\.?[0-9]+)\s*%?/g,
      function (all, name, sign, number) {
        conditions.push(condition(name, sign, Number(number)));
        return " ";
      });
    var wanted = rest.split(/\s+/).filter(Boolean);
    var unknown = conditions.filter(function (c) { return c.column < 0; });
    var shown = 0;
    rows.forEach(function (row) {
      var text = row.textContent.toLowerCase();
      row.hidden = !(wanted.every(function (w) { return text.indexOf(w) >= 0; })
        && conditions.every(function (c) { return c.holds(row); }));
      shown += row.hidden ? 0 : 1;
    });
    count.textContent = unknown.length > 0 ? "no column of figures begins with '" + unknown[0].name + "'"
      : shown + " of " + rows.length + " shown";
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
