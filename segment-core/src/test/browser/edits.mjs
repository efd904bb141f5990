// Many edits on surveys, without a browser: sides and corners of outlines are moved over their
// neighbours by the page's own functions. No region may be lost that something does not cover, and
// the areas must add up, by the page's own sums and by a clipping library of another kind.
// node edits.mjs FOLDER EDITS: FOLDER holds reports (any depth); writes a line of JSON for each

import { readFileSync, readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import path from "node:path";
import vm from "node:vm";
import clipper from "clipper-lib";

const [folder, wanted] = [process.argv[2], Number(process.argv[3])];
const pages = path.join(path.dirname(fileURLToPath(import.meta.url)),
  "../../main/resources/org/diesurvey/report/page");
const part = name => readFileSync(path.join(pages, name + ".js"), "utf8");
const program = part("library/polygon-clipping.min") + ["geometry", "clip", "frame", "words",
  "coverage", "store", "reshape"].map(name => part("script/" + name)).join("\n");
const CHECKED = 25; // every so many edits the other library is asked, which takes longer

// What the functions need of a page.
const around = `const Keeping = { read: () => null, onOther() {}, overtaken: false, write() {},
  forget() {}, writeSteps() {} }, addEventListener = () => {}, setTimeout = () => 0,
  clearTimeout = () => {}, document = { getElementById: () => ({ checked: true }) },
  Picture = { pxPerScreenPx: () => 1 };\n`;

function pageOf(survey) {
  const context = vm.createContext({ Survey: survey });
  vm.runInContext(around + program + "\n;this.page = { Geometry, Clip, Coverage, Store, Reshape, Frame };",
    context);
  return context.page;
}

const reports = readdirSync(folder, { recursive: true }).filter(f => f.endsWith("report.html"))
  .map(f => path.join(folder, f));

let seed = 20261;
const chance = () => {
  seed = (seed * 1103515245 + 12345) % 2147483648;
  return seed / 2147483648;
};
const one = list => list[Math.floor(chance() * list.length)];

// The area that shapes cover together, px2, by Vatti's algorithm on whole numbers.
function covered(shapes) {
  const SCALE = 4096;
  const all = new clipper.Clipper();
  for (const s of shapes) {
    const paths = s.rings.map(r => r.map(([x, y]) =>
      ({ X: Math.round(x * SCALE), Y: Math.round(y * SCALE) })));
    paths.forEach((p, i) => {
      if (clipper.Clipper.Orientation(p) !== (i === 0)) {
        p.reverse();
      }
    });
    all.AddPaths(paths, clipper.PolyType.ptSubject, true);
  }
  const union = new clipper.Paths();
  all.Execute(clipper.ClipType.ctUnion, union, clipper.PolyFillType.pftNonZero,
    clipper.PolyFillType.pftNonZero);
  return union.reduce((sum, p) => sum + clipper.Clipper.Area(p), 0) / SCALE / SCALE;
}

function edit(page) {
  const { Geometry, Coverage, Store, Reshape } = page;
  const s = one(Store.regions);
  const r = Math.floor(chance() * s.rings.length), c = Math.floor(chance() * s.rings[r].length);
  const by = one([2, 8, 30]) * (chance() < 0.5 ? -1 : 1);
  const p = s.rings[r][c];
  const rings = Coverage.clamped(chance() < 0.75 ? Reshape.side(s.rings, r, c, by)
    : Reshape.corner(s.rings, r, c, [p[0] + by, p[1] + by * (chance() - 0.5)], true));
  if (Coverage.fault(rings)) {
    return { kind: "refused by its form" };
  }
  const shape = Coverage.changed(s, { rings });
  const before = Store.shapes;
  const told = [];
  let next;
  try {
    next = Coverage.withArrays(Coverage.yielding(before.map(o => o === s ? shape : o), shape, told), told);
  } catch (e) {
    return { kind: "refused by its sums", why: e.message };
  }
  Store.apply("edit", next);
  const now = new Set(next.map(o => o.id));
  const lost = before.filter(o => !now.has(o.id) && !told.some(t => t.includes(o.id + " ")));
  return { kind: "done", lost: lost.map(o => o.id), before, next, shape, id: s.id };
}

// By the other library: what regions cover together, but for what the moved outline gave up and for
// specks, is covered still.
function balance(page, e) {
  const regions = list => list.filter(o => o.kind === "region");
  const all = covered([...regions(e.before).filter(o => o.id !== e.id), e.shape]);
  return Math.abs(all - covered(regions(e.next)));
}

// A ring that turns inside out where a corner lies on a side: nothing crosses, and yet the part on
// the right counts against the rest.
const folded = [[[100, 100], [150, 100], [150, 0], [100, 0], [100, 100], [100, 200], [0, 200], [0, 100]]];

for (const [i, file] of reports.entries()) {
  const html = readFileSync(file, "utf8");
  const survey = JSON.parse(html.match(/id="survey-data">([^<]*)</)[1]);
  let page = pageOf(survey);
  if (!page.Coverage.fault(folded)) {
    throw new Error("an outline that folds over itself is taken");
  }
  const out = { report: path.basename(path.dirname(file)), done: 0, form: 0, sums: 0, lost: [],
    why: [], worst_um2: 0, asked: 0 };
  const edits = Math.ceil(wanted * (i + 1) / reports.length) - Math.ceil(wanted * i / reports.length);
  for (let n = 0; n < edits; n++) {
    if (n % 60 === 59) {
      page = pageOf(survey); // back to the survey, before the die is all bits and pieces
    }
    const e = edit(page);
    if (e.kind !== "done") {
      out[e.kind === "refused by its form" ? "form" : "sums"]++;
      out.why.push(...(e.why ? [e.why] : []));
      continue;
    }
    out.done++;
    out.lost.push(...e.lost);
    if (n % CHECKED === 0) {
      out.asked++;
      out.worst_um2 = Math.max(out.worst_um2, balance(page, e) * page.Frame.pitch ** 2);
    }
  }
  console.log(JSON.stringify(out));
}
