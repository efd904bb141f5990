// Correcting outlines with the pointer.

import { must, near, open, close, clickAt, choose, area, row, drag, said, saved, outline, onScreen }
  from "./bench.mjs";

async function correcting(id) {
  const page = await open("bench.html");
  if (id) {
    await choose(page, id);
  }
  await page.click("#mode-edit");
  await page.waitForTimeout(100);
  return page;
}

export async function side_catches_on_the_edge_of_the_picture() {
  const page = await correcting("MEM1");
  // The block ends at 300 um, the survey says 296; let go 2 um short of the truth.
  await drag(page, [296, 190], [298, 190]);
  const m1 = outline((await saved(page)).doc, "MEM1");
  near(m1.box[2], 300, 0.4, "the right side lies on the picture's edge");
  near(m1.box[0], 100, 0.02, "the left side stayed");
  must(m1.ring.length === 4, "four corners");
  near(await area(page, "MEM1"), 0.028, 0.0001, "200 um x 140 um");
  must(m1.feature.properties.outline === "corrected", "and it is said");
  await close(page);
}

export async function corner_moves_and_right_angles_hold() {
  const page = await correcting("MEM2");
  await page.uncheck("#edges");
  await drag(page, [420, 260], [440, 270]);
  const m2 = outline((await saved(page)).doc, "MEM2");
  must(m2.ring.length === 4, "four corners");
  [320, 120, 440, 270].forEach((v, i) => near(m2.box[i], v, 1.2, "rectangle of MEM2, side " + i));
  const sides = m2.ring.map((p, i) => {
    const q = m2.ring[(i + 1) % 4];
    return Math.min(Math.abs(p[0] - q[0]), Math.abs(p[1] - q[1]));
  });
  must(sides.every(s => s < 0.05), "all right angles: " + sides);
  await page.uncheck("#hold");
  await drag(page, [440, 270], [430, 240]);
  const free = outline((await saved(page)).doc, "MEM2");
  must(free.ring.some(p => Math.abs(p[0] - 430) < 1.5 && Math.abs(p[1] - 240) < 1.5), "moved freely");
  must(free.ring.filter(p => p[0] > 425).length === 2, "neighbours stayed");
  await close(page);
}

export async function corners_are_added_and_removed() {
  const page = await correcting("MEM2");
  await page.uncheck("#edges");
  // Not in the middle of the side, where its handle lies.
  await clickAt(page, 340, 260, { clickCount: 2 });
  must(outline((await saved(page)).doc, "MEM2").ring.length === 5, "a corner more: " + await said(page));
  await page.uncheck("#hold");
  await drag(page, [340, 260], [340, 280]);
  must(outline((await saved(page)).doc, "MEM2").box[3] > 275, "and it moves alone");
  await clickAt(page, 340, 280);
  await page.click("#remove-corner");
  const m2 = outline((await saved(page)).doc, "MEM2");
  must(m2.ring.length === 4 && m2.box[3] < 261, "a corner less: " + await said(page));
  await close(page);
}

export async function outline_that_would_cross_itself_is_refused() {
  const page = await correcting("MEM2");
  await page.uncheck("#hold");
  await page.uncheck("#edges");
  await drag(page, [420, 260], [370, 60]);
  must((await said(page)).includes("cross itself"), await said(page));
  must((await page.textContent("#kept")) === "No corrections yet.", "nothing changed");
  await close(page);
}

export async function rectangle_is_drawn_and_neighbours_give_way() {
  const page = await correcting();
  await page.uncheck("#edges");
  const logic = await area(page, "LOG1");
  await page.selectOption("#draw-as", { label: "Hard macro" });
  await page.click("button[data-task=draw]");
  await drag(page, [200, 300], [260, 360]);
  near(await area(page, "MAC2"), 0.0036, 0.0001, "60 um x 60 um: " + await said(page));
  near(await area(page, "LOG1"), logic - 0.0036, 0.0002, "the logic gave way");
  const { doc } = await saved(page);
  must(outline(doc, "LOG1").feature.geometry.coordinates.length === 2, "and has a hole");
  must(outline(doc, "MAC2").feature.properties.class === "hard macro", "the class chosen");
  await close(page);
}

// Drawn across a region of its own class, which falls into two: each of the three has an id of its own.
export async function rectangle_across_a_region_of_its_class_repeats_no_id() {
  const page = await correcting();
  await page.uncheck("#edges");
  await page.selectOption("#draw-as", { label: "Memory array" });
  await page.click("button[data-task=draw]");
  await drag(page, [170, 90], [190, 300]);
  must((await said(page)).includes("falls into"), await said(page));
  const ids = (await saved(page)).doc.features.map(f => f.id);
  must(new Set(ids).size === ids.length, "each id once: " + ids.join(", "));
  await close(page);
}

export async function outline_is_drawn_corner_by_corner() {
  const page = await correcting();
  await page.uncheck("#edges");
  await page.click("button[data-task=draw]");
  for (const p of [[110, 300], [180, 300], [180, 330], [150, 330], [150, 380], [110, 380]]) {
    await clickAt(page, ...p);
    await page.waitForTimeout(350); // two quick clicks would be a double click
  }
  await clickAt(page, 110, 300);
  // 70 x 30 + 40 x 50 um2
  near(await area(page, "MEM3"), 0.0041, 0.0001, "an L of two rectangles: " + await said(page));
  must(outline((await saved(page)).doc, "MEM3").ring.length === 6, "six corners");
  await close(page);
}

export async function region_is_split_with_its_array_and_joined_again() {
  const page = await correcting("MEM1");
  const whole = await area(page, "MEM1");
  await page.click("#split");
  await clickAt(page, 180, 100);
  await page.waitForTimeout(350);
  await clickAt(page, 180, 275, { clickCount: 2 });
  near(await area(page, "MEM1"), 116 * 140 / 1e6, 0.0002, "the larger part: " + await said(page));
  near(await area(page, "MEM3"), 80 * 140 / 1e6, 0.0002, "the smaller part");
  let { doc } = await saved(page);
  const arrays = doc.features.filter(f => f.properties.part_of);
  must(arrays.length === 2 && new Set(arrays.map(f => f.properties.part_of)).size === 2,
    "each part has its part of the array");
  await page.click("#merge");
  await clickAt(page, 140, 190);
  near(await area(page, "MEM1"), whole, 0.00003, "one again: " + await said(page));
  ({ doc } = await saved(page));
  must(!doc.features.some(f => f.id === "MEM3"), "the other is gone");
  must(doc.features.filter(f => f.properties.part_of === "MEM1").length === 2, "arrays came along");
  await close(page);
}

export async function regions_beside_each_other_are_joined_across_the_gap() {
  const page = await correcting("MEM1");
  await page.click("#merge");
  await clickAt(page, 380, 190);
  const m1 = outline((await saved(page)).doc, "MEM1");
  near(m1.box[0], 100, 0.1, "from the left of one");
  near(m1.box[2], 420, 0.1, "to the right of the other");
  near(await area(page, "MEM1"), 320 * 140 / 1e6, 0.0002, "gap and all: " + await said(page));
  must(await page.locator(row("MEM2")).count() === 0, "MEM2 is in MEM1 now");
  await close(page);
}

export async function class_changes_and_measures_stay() {
  const page = await correcting("MAC1");
  await page.selectOption("#class-of", { label: "Logic" });
  must((await page.textContent("#entry h2")).includes("logic"), "called logic");
  must((await page.textContent(row("MAC1"))).includes("given"), "by a person");
  const { feature } = outline((await saved(page)).doc, "MAC1");
  must(feature.properties.class === "logic" && feature.properties.outline === "found", "saved so");
  must(await page.isVisible("#change-list li:has-text('was hard macro')"), "and listed");
  await close(page);
}

export async function every_step_is_undone_and_done_again() {
  const page = await correcting("MEM2");
  await page.click("#delete");
  must(await page.locator(row("MEM2")).count() === 0, "struck out");
  await choose(page, "MAC1");
  await page.selectOption("#class-of", { label: "Logic" });
  await page.click("#undo");
  must((await page.textContent(row("MAC1"))).includes("hard macro"), "the class is back");
  await page.keyboard.press("Control+z");
  must(await page.locator(row("MEM2")).count() === 1, "MEM2 is back");
  must(await page.textContent("#kept") === "No corrections yet.", "as found");
  must(await page.isDisabled("#undo"), "nothing more to undo");
  await page.click("#redo");
  await page.keyboard.press("Control+Shift+Z");
  must(await page.locator(row("MEM2")).count() === 0
    && (await page.textContent(row("MAC1"))).includes("logic"), "both again");
  await close(page);
}

export async function bit_cell_array_is_drawn_inside_its_memory() {
  const page = await correcting("MEM2");
  await page.uncheck("#edges");
  await page.click("#draw-array");
  await drag(page, [330, 130], [500, 250]); // beyond the memory
  const { doc } = await saved(page);
  const array = outline(doc, "MEM2.1");
  must(array.feature.properties.part_of === "MEM2", "part of MEM2");
  near(array.box[2], 420, 0.5, "cut at the memory's side");
  await close(page);
}

export async function handles_stay_on_corners_while_the_picture_moves() {
  const page = await correcting("MEM2");
  const p = await onScreen(page, 640, 250);
  await page.mouse.move(p.x, p.y);
  await page.mouse.down();
  await page.mouse.move(p.x - 60, p.y - 40, { steps: 4 });
  await page.mouse.up();
  await page.waitForTimeout(700);
  const corner = await onScreen(page, 420, 260);
  const boxes = await page.$$eval(".handle.corner", all => all.map(e => {
    const b = e.getBoundingClientRect();
    return [b.x + b.width / 2, b.y + b.height / 2];
  }));
  must(boxes.some(([x, y]) => Math.hypot(x - corner.x, y - corner.y) < 3), "a handle on the corner");
  must((await page.textContent("#kept")) === "No corrections yet.", "looking changes nothing");
  await close(page);
}

// A side dragged onto a neighbour's side; on such cases whole regions used to vanish.
export async function side_moved_onto_a_neighbour_takes_its_ground_and_says_so() {
  const page = await correcting("MEM1");
  await page.uncheck("#edges");
  const logic = await area(page, "LOG1");
  // The upper side of MEM1, from 260 um into the logic, which begins at 280 um, by 20 um.
  await drag(page, [198, 260], [198, 300]);
  const taken = 196 * 20 / 1e6;
  near(await area(page, "LOG1"), logic - taken, 0.0004, "the logic gives: " + await said(page));
  must((await said(page)).includes("LOG1 gives 0.00"), "and it is told: " + await said(page));
  must((await said(page)).includes("Undo brings it back"), "with the way back");
  must(await page.locator("#ledger tbody tr").count() === 6, "no region is lost");
  await page.click("#undo");
  near(await area(page, "LOG1"), logic, 1e-9, "undone");
  await close(page);
}

export async function covered_region_is_named_when_it_goes() {
  const page = await correcting();
  await page.uncheck("#edges");
  await page.selectOption("#draw-as", { label: "Logic" });
  await page.click("button[data-task=draw]");
  await drag(page, [440, 225], [610, 275]);
  must((await said(page)).includes("UNC1 lies under it and is gone"), await said(page));
  must(await page.locator(row("UNC1")).count() === 0, "and it is");
  await page.click("#undo");
  must(await page.locator(row("UNC1")).count() === 1, "undo brings it back");
  await close(page);
}

export async function corrected_area_has_the_uncertainty_of_the_outline_too() {
  const page = await correcting();
  await page.uncheck("#edges");
  await page.selectOption("#draw-as", { label: "Hard macro" });
  await page.click("button[data-task=draw]");
  await drag(page, [200, 300], [260, 360]);
  // Four sides of 60 um, each placed within 1.5 screen px, and a scale known to 1 %.
  const perUm = (await onScreen(page, 300, 300)).x - (await onScreen(page, 200, 300)).x;
  const side = 1.5 / (perUm / 100);
  const expected = Math.hypot(2 * 60 * side, 2 * 0.01 * 3600) / 1e6;
  const u = parseFloat((await page.textContent(row("MAC2") + " > :nth-child(3)")).split("±")[1]);
  near(u, expected, 0.05 * expected, "± of a drawn rectangle");
  await close(page);
}
