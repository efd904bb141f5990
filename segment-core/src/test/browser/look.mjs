// Reading a report: the picture, the table, the chosen region, the tape.

import { readFile } from "node:fs/promises";
import { must, near, open, close, clickAt, choose, cell, row, onScreen, drag } from "./bench.mjs";

export async function page_shows_photograph_and_regions() {
  const page = await open("bench.html");
  await page.waitForSelector(".photo-cell img");
  must(await page.isHidden("figure.still img"), "the still picture is for print");
  must(await page.locator("path.shape-line").count() === 6, "six regions are outlined");
  const shown = await page.evaluate(() => [...document.querySelectorAll(".photo-cell img")]
    .every(i => i.complete && i.naturalWidth > 0));
  must(shown, "every tile is a picture");
  must(page.requests.every(u => u.startsWith("file:") || u.startsWith("data:")),
    "nothing was asked of the network");
  must(page.requests.filter(u => u.startsWith("file:")).length === 1, "one file is enough");
  await close(page);
}

export async function wheel_brings_the_picture_closer_and_the_scale_bar_follows() {
  const page = await open("bench.html");
  const before = await onScreen(page, 200, 190), other = await onScreen(page, 400, 190);
  const bar = () => page.evaluate(() => {
    const label = document.querySelector(".scale-bar span").textContent;
    return [parseFloat(label) * (label.endsWith("mm") ? 1000 : 1),
      document.querySelector(".scale-bar i").getBoundingClientRect().width];
  });
  let [um, px] = await bar();
  near(px / um, (other.x - before.x) / 200, 0.02, "screen px per um of the bar");
  const pointer = { x: Math.round(before.x), y: Math.round(before.y) }; // browsers tell whole px
  await page.mouse.move(pointer.x, pointer.y);
  for (let i = 0; i < 3; i++) {
    await page.mouse.wheel(0, -200);
    await page.waitForTimeout(150);
  }
  await page.waitForTimeout(400);
  const after = await onScreen(page, 200, 190), far = await onScreen(page, 400, 190);
  must(far.x - after.x > 2 * (other.x - before.x), "the picture came closer");
  // The drawn die edge is told in whole screen px, so places were known to half a px before.
  const closer = (far.x - after.x) / (other.x - before.x);
  near(after.x, pointer.x + closer * (before.x - pointer.x), 1 + 0.7 * closer,
    "what is under the pointer stays there");
  const [um2, px2] = await bar();
  must(um2 < um, "a shorter bar");
  near(px2 / um2, (far.x - after.x) / 200, 0.05, "screen px per um of the bar");
  await close(page);
}

export async function click_on_a_region_shows_its_measures() {
  const page = await open("bench.html");
  await clickAt(page, 200, 190);
  must((await page.textContent("#entry h2")).includes("MEM1"), "MEM1 is chosen");
  const entry = await page.textContent("#entry");
  // 196 um x 140 um = 0.02744 mm2, written with the survey's own uncertainty.
  must(entry.includes("0.02744 ± 0.00055\u00a0mm²"), "its area: " + entry);
  must(entry.includes("memory array 90\u00a0%"), "its probabilities");
  must(entry.includes("2.400 ± 0.012 µm"), "its period");
  must(await page.getAttribute(row("MEM1") + " button", "aria-pressed") === "true", "its row");
  await clickAt(page, 200, 190);
  must((await page.textContent("#entry h2")).includes("MEM1.1"), "a second click reaches the array");
  await close(page);
}

export async function row_and_region_show_each_other() {
  const page = await open("bench.html");
  const p = await onScreen(page, 520, 170);
  await page.mouse.move(p.x, p.y);
  must(await page.locator(row("MAC1") + ".pointed").count() === 1, "the row of what is pointed at");
  await page.hover(row("MEM2"));
  must(await page.locator("path.shape-line.pointed").count() === 1, "the outline of the row");
  await choose(page, "LOG1");
  must(await page.locator("path.shape-line.chosen").count() === 1, "the chosen outline");
  await close(page);
}

export async function table_is_sorted_and_filtered() {
  const page = await open("bench.html");
  const ids = () => page.$$eval("#ledger tbody tr", rows => rows.map(r => r.dataset.id).join(" "));
  must(await ids() === "PAD1 LOG1 MEM1 MAC1 MEM2 UNC1", "largest first: " + await ids());
  await page.click("#ledger thead th:nth-child(5) button");
  await page.click("#ledger thead th:nth-child(5) button");
  must((await ids()).startsWith("MAC1"), "least sure first: " + await ids());
  await page.fill("#ledger-words", "memory");
  must(await ids() === "MEM1 MEM2" || await ids() === "MEM2 MEM1", "found by class: " + await ids());
  must((await page.textContent(".tally")).startsWith("2 of 6"), "and counted");
  await page.fill("#ledger-words", "");
  await page.check("text=below 50 % only");
  must(await ids() === "MAC1", "below 50 %: " + await ids());
  must(await cell(page, "MAC1", 5) === "40\u00a0%", "its confidence");
  await close(page);
}

export async function layers_go_off_and_on() {
  const page = await open("bench.html");
  const outlines = () => page.locator("path.shape-line").count();
  await page.uncheck("#legend label:has-text('Memory array') input");
  must(await outlines() === 4, "without memories");
  must(await page.locator("path.array-line").count() === 0, "nor what is in them");
  await page.check("#legend label:has-text('Memory array') input");
  must(await outlines() === 6, "all again");
  await page.uncheck("#legend label:has-text('Empty') input");
  await page.uncheck("#legend label:has-text('Die edge') input");
  must(await outlines() === 5 && await page.locator("path.edge-line").count() === 0, "more off");
  const fill = () => page.getAttribute("path.shape-line >> nth=0", "fill");
  const byClass = await fill();
  await page.selectOption("#colour-by", "confidence");
  must(await fill() !== byClass, "coloured by confidence");
  await page.fill("#tint", "80");
  const tint = await page.evaluate(() => getComputedStyle(document.querySelector(".wash")).fillOpacity);
  must(tint === "0.8", "tint: " + tint);
  await close(page);
}

export async function ruler_reads_micrometres_with_placing_and_scale() {
  const page = await open("bench.html");
  await page.click("#mode-measure");
  await clickAt(page, 100, 190);
  await clickAt(page, 400, 190);
  await page.keyboard.press("f");
  const text = await page.textContent("#tape-reads");
  const [, value, u] = text.match(/^([\d.]+) ± ([\d.]+)\u00a0µm/) || [];
  near(Number(value), 300, 2, "a tape of 300 um");
  // 1 % of it, as the pitch, and two ends, each placed within 1.5 screen px along the ruler.
  const a = await onScreen(page, 100, 190), b = await onScreen(page, 400, 190);
  const placing = 1.5 * Math.SQRT2 * 300 / (b.x - a.x);
  near(Number(u), Math.hypot(3, placing), 0.06, "both together");
  await page.fill("#tape-spans", "20");
  const pitch = (await page.textContent("#tape-reads")).match(/one of 20 periods is ([\d.]+)/)[1];
  near(Number(pitch), 15, 0.1, "the pitch over 20 spans");
  await close(page);
}

export async function page_without_scale_measures_in_px() {
  const page = await open("unscaled.html");
  must((await page.textContent("#ledger thead")).includes("px²"), "areas in px");
  must((await page.textContent(".scale-bar")).endsWith("px"), "scale bar in px");
  must(!(await page.textContent("#desk")).includes("mm²"), "no mm2 anywhere");
  await page.click("#mode-measure");
  await clickAt(page, 200, 200);
  await clickAt(page, 600, 200);
  near(parseFloat(await page.textContent("#tape-reads")), 400, 3, "px along the die");
  await close(page);
}

export async function large_photograph_is_reduced_and_placed_rightly() {
  const page = await open("reduced.html");
  must((await page.textContent(".picture-note")).includes("2 × 2 pixels are averaged"), "said");
  await clickAt(page, 200, 190);
  must((await page.textContent("#entry h2")).includes("MEM1"), "regions lie where they did");
  await page.click("#mode-edit");
  await drag(page, [296, 190], [299, 190]);
  must((await page.textContent("#kept")).startsWith("1 correction"), "and can be corrected");
  await close(page);
}

export async function address_names_the_chosen_region_and_leads_back_to_it() {
  const page = await open("bench.html");
  await choose(page, "MEM2");
  must(page.url().endsWith("#MEM2"), page.url());
  const other = await page.context().newPage();
  await other.goto(page.url());
  must((await other.textContent("#entry h2")).includes("MEM2"), "chosen when the page opens");
  await close(page);
}

export async function picture_takes_most_of_the_window_and_nothing_of_the_table_is_cut() {
  for (const [width, height] of [[1440, 790], [1280, 720]]) {
    const page = await open("bench.html", { viewport: { width, height } });
    const box = await page.locator("#plate").boundingBox();
    must(box.width > 0.58 * width, width + " px wide: the picture has " + box.width);
    const over = await page.locator(".rows").evaluate(e => e.scrollWidth - e.clientWidth);
    must(over <= 0, width + " px wide: " + over + " px of the table are cut off");
    await close(page);
  }
}

export async function arrows_move_the_picture_at_whole_die_zoom_too() {
  const page = await open("bench.html");
  const before = await onScreen(page, 350, 250);
  await page.focus("#plate");
  await page.keyboard.press("ArrowRight");
  await page.keyboard.press("ArrowRight");
  await page.waitForTimeout(400);
  const after = await onScreen(page, 350, 250);
  near(before.x - after.x, 128, 2, "two steps of 64 screen px, and no way back");
  await close(page);
}

export async function skip_link_leads_to_the_picture() {
  const page = await open("bench.html");
  await page.keyboard.press("Tab");
  await page.keyboard.press("Enter");
  must(await page.evaluate(() => document.activeElement.id) === "plate", "the first tab stop");
  await close(page);
}

export async function table_is_copied_for_a_spreadsheet() {
  const page = await open("bench.html");
  await page.click("#copy");
  must((await page.textContent("#said")).includes("copied"), await page.textContent("#said"));
  await page.fill("#ledger-words", "");
  await page.focus("#ledger-words");
  await page.keyboard.press("Control+v");
  const text = await page.inputValue("#ledger-words");
  must(text.includes("area_mm2") && text.includes("MEM1"), text);
  await close(page);
}

export async function rulers_stay_and_go_with_the_outlines() {
  const page = await open("bench.html");
  await page.click("#mode-measure");
  for (const y of [190, 260]) {
    await clickAt(page, 100, y);
    await clickAt(page, 400, y);
    await page.keyboard.press("f");
  }
  const rulers = () => page.locator("#rulers .ruler").count();
  must(await rulers() === 2, "two rulers");
  must(await page.locator("text.tape-name").count() === 2, "both named in the picture");
  await page.click("#mode-view");
  must(await page.locator("text.tape-name").count() === 2, "they are to be seen in every mode");
  await page.reload();
  must(await rulers() === 2, "kept over a reload");
  const [file] = await Promise.all([page.waitForEvent("download"), page.click("#save")]);
  const saved = JSON.parse(await readFile(await file.path(), "utf8"));
  must(saved.rulers.length === 2 && saved.rulers[1].id === "R2", "in the file of outlines");
  near(saved.rulers[0].length, 300, 2, "its length in um");
  must(saved.rulers[0].standard_uncertainty_length > 3, "with the uncertainty of placing");
  await page.click("#mode-measure");
  await page.click("#tape-clear");
  must(await rulers() === 0, "all removed");
  await page.click("#tape-clear");
  must(await rulers() === 2, "and brought back");
  await page.click("#tape-clear");
  await page.setInputFiles("#open", { name: "saved.geojson", mimeType: "application/json",
    buffer: Buffer.from(JSON.stringify(saved)) });
  await page.waitForFunction(() => document.querySelectorAll("#rulers .ruler").length === 2);
  await close(page);
}

export async function card_tells_why_a_region_has_its_class() {
  const page = await open("bench.html");
  await choose(page, "MEM2");
  await page.click("#why summary");
  await page.waitForSelector("#why tbody tr");
  const text = await page.textContent("#why");
  // The bench draws a lattice of 8 um into MEM2.
  must(text.includes("repeats along both axes, every 8.0\u00a0µm by 8.0\u00a0µm"), text);
  must(await page.locator("#why .curve .period").count() === 2, "both periods are marked");
  must(text.includes("Speaks against it"), "both sides are heard");
  must(await page.locator("#why tbody tr").count() === 4, "of all four classes");
  await page.waitForFunction(() => {
    const c = document.querySelector("#why canvas");
    const data = c.getContext("2d").getImageData(0, 0, c.width, c.height).data;
    return new Set(data).size > 10;
  });
  await page.click("#why .links button");
  must(!(await page.textContent("#entry h2")).startsWith("MEM2 "), "an alike region is chosen");
  must(await page.locator("#why[open]").count() === 1, "and its card is open");
  await close(page);
}

export async function view_is_saved_as_a_picture() {
  const page = await open("bench.html");
  const [file] = await Promise.all([page.waitForEvent("download"), page.click("#still")]);
  must(file.suggestedFilename() === "bench.view.png", file.suggestedFilename());
  const bytes = await readFile(await file.path());
  must(bytes.subarray(1, 4).toString() === "PNG", "a PNG");
  const size = await page.evaluate(() => [document.querySelector("#plate").clientWidth]);
  must(bytes.readUInt32BE(16) === 2 * size[0], "twice as fine as the screen");
  const colours = await page.evaluate(async text => {
    const image = new Image();
    image.src = "data:image/png;base64," + text;
    await image.decode();
    const c = document.createElement("canvas");
    c.width = image.width;
    c.height = image.height;
    const g = c.getContext("2d");
    g.drawImage(image, 0, 0);
    const d = g.getImageData(0, 0, c.width, c.height).data;
    const seen = new Set();
    for (let i = 0; i < d.length; i += 4) {
      seen.add(d[i] << 16 | d[i + 1] << 8 | d[i + 2]);
    }
    return [seen.has(0xE69F00), seen.has(0x0072B2), seen.size];
  }, bytes.toString("base64"));
  must(colours[0] && colours[1] && colours[2] > 1000, "photograph and outlines: " + colours);
  await close(page);
}

export async function small_damaged_places_are_one_row() {
  const page = await open("damaged.html");
  const rows = () => page.locator("#ledger tbody tr").count();
  const folded = await rows();
  must((await page.textContent("tr.fold")).includes("6 specks"), await page.textContent("tr.fold"));
  must((await page.textContent(".tally")).startsWith("12 regions"), "all are counted");
  await page.click("tr.fold button");
  must(await rows() === folded + 6, "each of them on request");
  await page.click("tr.fold button");
  must(await rows() === folded, "and back");
  await close(page);
}
