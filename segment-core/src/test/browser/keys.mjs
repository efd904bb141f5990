// Everything without a pointer.

import { must, near, open, close, area, row, said, saved, outline } from "./bench.mjs";

async function focusPlate(page) {
  // Tab by tab, as a user without a pointer arrives there.
  for (let i = 0; i < 60; i++) {
    await page.keyboard.press("Tab");
    if (await page.evaluate(() => document.activeElement.id === "plate")) {
      return;
    }
  }
  throw new Error("the picture cannot be reached with Tab");
}

async function press(page, keys) {
  for (const key of keys.split(" ")) {
    await page.keyboard.press(key);
  }
}

// Moves the sight to a place of the die, in steps of single screen px where needed.
async function aim(page, x, y) {
  for (let tries = 0; tries < 4; tries++) {
    const by = await page.evaluate(([x, y]) => {
      const data = JSON.parse(document.getElementById("survey-data").textContent);
      const edge = document.querySelector("path.edge-line");
      const corners = edge.getAttribute("d").match(/-?[\d.]+/g).map(Number);
      const at = i => new DOMPoint(corners[2 * i], corners[2 * i + 1])
        .matrixTransform(edge.getScreenCTM());
      const [a, b, d] = [at(0), at(1), at(3)];
      const u = x / data.die.width_um, v = y / data.die.height_um;
      const box = document.getElementById("plate").getBoundingClientRect();
      const plate = document.getElementById("plate");
      return [a.x + u * (b.x - a.x) + v * (d.x - a.x) - box.x - plate.clientLeft
        - plate.clientWidth / 2,
      a.y + u * (b.y - a.y) + v * (d.y - a.y) - box.y - plate.clientTop - plate.clientHeight / 2];
    }, [x, y]);
    if (Math.abs(by[0]) < 0.75 && Math.abs(by[1]) < 0.75) {
      return;
    }
    for (const [way, key] of [[by[0], by[0] > 0 ? "ArrowRight" : "ArrowLeft"],
      [by[1], by[1] > 0 ? "ArrowDown" : "ArrowUp"]]) {
      const px = Math.round(Math.abs(way));
      for (const [step, chord] of [[64, ""], [8, "Shift+"], [1, "Control+"]]) {
        const times = step === 64 ? Math.floor(px / 64) : Math.floor(px % (8 * step) / step);
        for (let i = 0; i < times; i++) {
          await page.keyboard.press(chord + key);
        }
      }
    }
  }
}

export async function regions_are_walked_through_and_read_aloud() {
  const page = await open("bench.html");
  await focusPlate(page);
  await press(page, ".");
  must((await said(page)).startsWith("PAD1, pad ring, "), await said(page));
  await press(page, ". .");
  must((await said(page)).startsWith("MEM1, memory array, 0.02744"), await said(page));
  must((await said(page)).includes("confidence 90"), await said(page));
  await press(page, ",");
  must((await said(page)).startsWith("LOG1"), await said(page));
  must(await page.getAttribute("#said", "aria-live") === "polite", "a live region");
  await press(page, "Escape");
  must((await page.textContent("#entry")).includes("Choose a region"), "nothing chosen");
  await close(page);
}

export async function sight_chooses_what_lies_under_it() {
  const page = await open("bench.html");
  await focusPlate(page);
  await aim(page, 380, 190);
  await press(page, "Enter");
  must((await said(page)).startsWith("MEM2"), await said(page));
  await press(page, "g");
  await page.waitForTimeout(400);
  await press(page, "w");
  await close(page);
}

export async function outline_is_corrected_saved_and_undone_by_keys_alone() {
  const page = await open("bench.html");
  await focusPlate(page);
  await aim(page, 380, 190);
  await press(page, "Enter e s");
  await aim(page, 420, 190);
  await press(page, "Enter");
  must((await said(page)).startsWith("Side taken"), await said(page));
  await aim(page, 430, 190);
  await press(page, "Enter");
  near(await area(page, "MEM2"), 110 * 140 / 1e6, 0.0003, "ten um wider: " + await said(page));
  await aim(page, 320, 260);
  await press(page, "Enter");
  must((await said(page)).startsWith("Corner taken"), await said(page));
  await aim(page, 315, 255);
  await press(page, "Enter");
  const m2 = outline((await saved(page)).doc, "MEM2");
  [315, 120, 430, 255].forEach((v, i) => near(m2.box[i], v, 1.5, "MEM2, side " + i));
  await page.focus("#plate");
  await press(page, "Control+z Control+z");
  must(await page.textContent("#kept") === "No corrections yet.", "undone");
  await close(page);
}

export async function region_is_drawn_and_cut_by_keys_alone() {
  const page = await open("bench.html");
  await focusPlate(page);
  await press(page, "e s d");
  for (const p of [[150, 300], [250, 300], [250, 360], [150, 360]]) {
    await aim(page, ...p);
    await press(page, "Enter");
  }
  await press(page, "f");
  near(await area(page, "MEM3"), 0.006, 0.0002, "100 um x 60 um: " + await said(page));
  await press(page, "c");
  for (const p of [[200, 290], [200, 370]]) {
    await aim(page, ...p);
    await press(page, "Enter");
  }
  await press(page, "f");
  must(await page.locator(row("MEM4")).count() === 1, "cut in two: " + await said(page));
  await press(page, "m");
  await aim(page, 100, 190);
  await press(page, "Enter");
  await aim(page, 300, 190);
  await press(page, "Enter");
  near(parseFloat(await page.textContent("#tape-reads")), 200, 2, "and measured");
  await close(page);
}

export async function corners_are_inserted_and_removed_by_keys_alone() {
  const page = await open("bench.html");
  await focusPlate(page);
  await aim(page, 380, 190);
  await press(page, "Enter e s");
  await aim(page, 350, 260);
  await press(page, "i");
  must(outline((await saved(page)).doc, "MEM2").ring.length === 5, "inserted: " + await said(page));
  await page.focus("#plate");
  await press(page, "Delete");
  must(outline((await saved(page)).doc, "MEM2").ring.length === 4, "removed: " + await said(page));
  await close(page);
}
