// Cards and labels on paper, A4 and Letter, in a wide font and in a narrow one.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { readdirSync, readFileSync, rmSync } from "node:fs";
import { basename, join } from "node:path";
import { after, before, describe, test } from "node:test";
import { launch, missingFor, patience } from "./chromium.mjs";
import { folder, pages, there } from "./cards.mjs";
import { fonts } from "./fonts.mjs";
import { layoutFaults, typeSizes } from "./layout.mjs";

const poppler = there("pdfinfo", "-v") && there("pdftotext", "-v") && there("pdftoppm", "-v") ? false : "poppler-utils is not installed";
const all = pages();
after(() => rmSync(folder, { recursive: true }));

const points = 72 / 25.4; // to a millimetre
const margin = 9; // millimetres, as the style sheet has it
const formats = { A4: { width: 210, height: 297 }, Letter: { width: 215.9, height: 279.4 } };

/** How many sheets it says that it takes; undefined for more than two of a card. */
function sheetsOf(html) {
  const list = html.match(/<ul class="labels( six| four| two)?( type-\d)?">/);
  if (list) {
    const toASheet = { " six": 6, " four": 4, " two": 2 }[list[1]] ?? 8;
    return Math.ceil(html.match(/<li class="label">/g).length / toASheet);
  }
  const [, size, two] = html.match(/<html lang="en" class="fit-(\d+)( two-sheets)?">/);
  // The smallest size is also that of a card which runs over more sheets than two.
  return !two ? 1 : size === "7" ? undefined : 2;
}

/** The words of a PDF, sheet by sheet, with their boxes in points. */
function wordsOf(pdf) {
  const xml = execFileSync("pdftotext", ["-bbox", pdf, "-"], { encoding: "utf8", maxBuffer: 1 << 26 });
  return xml.split("<page ").slice(1).map((page) =>
    [...page.matchAll(/<word xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)">([^<]*)</g)]
      .map(([, left, top, right, bottom, words]) => ({ left: +left, top: +top, right: +right, bottom: +bottom, words }))
      .filter(({ words }) => !/^[\u2066-\u2069]*$/.test(words))); // marks without a letter
}

function overlapping(words) {
  const found = [];
  for (let i = 0; i < words.length; ++i) {
    for (let k = i + 1; k < words.length; ++k) {
      const [a, b] = [words[i], words[k]];
      const high = Math.min(a.bottom - a.top, b.bottom - b.top);
      if (Math.min(a.right, b.right) - Math.max(a.left, b.left) > 1 && Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 0.4 * high)
        found.push(`"${a.words}" lies over "${b.words}"`);
    }
  }
  return found;
}

/** A picture in grey, as `pdftoppm -gray` writes it: its size, and whether there is ink in a row or a column. */
function read(file) {
  const bytes = readFileSync(file);
  const [head, width, height] = bytes.toString("latin1", 0, 40).match(/^P5\s+(\d+)\s+(\d+)\s+255\s/);
  const rows = new Uint8Array(Number(height));
  const columns = new Uint8Array(Number(width));
  for (let y = 0, at = head.length; y < height; ++y)
    for (let x = 0; x < width; ++x, ++at) if (bytes[at] < 200) rows[y] = columns[x] = 1;
  return { rows, columns };
}

/** What each sheet of a file looks like: how much of it is empty at the end, and the edges on which there is ink. */
function picturesOf(pdf, { width, height }) {
  execFileSync("pdftoppm", ["-gray", "-r", "50", pdf, `${pdf}-picture`]);
  return readdirSync(folder).filter((name) => name.startsWith(`${basename(pdf)}-picture`)).sort().map((name) => {
    const { rows, columns } = read(join(folder, name));
    const x = Math.floor((margin - 1) / width * columns.length);
    const y = Math.floor((margin - 1) / height * rows.length);
    const edges = { left: columns.slice(0, x), right: columns.slice(-x), top: rows.slice(0, y), bottom: rows.slice(-y) };
    // Of what is printed on, the margins aside.
    const empty = (1 - margin / height - (rows.lastIndexOf(1) + 1) / rows.length) / (1 - 2 * margin / height);
    return { empty, edges: Object.keys(edges).filter((edge) => edges[edge].includes(1)) };
  });
}

for (const font of fonts) {
  describe(`on paper, in a ${font} font`, { skip: poppler || missingFor(font) }, () => {
    let browser;
    let tab; // for all, which is quicker than one for each
    before(async () => {
      browser = await launch(font);
      tab = await browser.newPage();
      await tab.emulateMedia({ media: "print" });
    });
    after(() => browser?.close());

    for (const [name, path] of all) {
      for (const [format, size] of Object.entries(formats)) {
        if (font === "narrow" && format === "A4") continue; // which has more room in each way
        test(`${name}, ${format}`, { timeout: patience }, async () => {
          const html = readFileSync(path, "utf8");
          const label = html.includes("<ul class=\"labels");
          await tab.setViewportSize({ width: Math.round((size.width - 2 * margin) / 25.4 * 96), height: 1000 });
          await tab.goto(`file://${path}`);
          const sizes = await typeSizes(tab);
          assert.ok(sizes.all >= 7.99, `${sizes.all} pt: ${sizes.smallest}`);
          assert.ok(sizes.method >= 11, `the method in ${sizes.method} pt`);
          assert.deepEqual(await layoutFaults(tab), []);
          if (label) {
            const over = await tab.locator(".label").evaluateAll((found) => found.filter((one) => one.scrollHeight > one.clientHeight + 1).map((one) => one.textContent));
            assert.deepEqual(over, []);
          }

          const pdf = join(folder, `${font}-${name}-${format}.pdf`);
          await tab.pdf({ path: pdf, format });
          const sheets = wordsOf(pdf);
          const wanted = sheetsOf(html);
          if (wanted) assert.equal(sheets.length, wanted);
          for (const words of sheets) {
            assert.ok(words.length > 0, "an empty sheet");
            assert.deepEqual(overlapping(words), []);
            // Two points of grace: an A4 sheet of the browser is not 210 mm to the point, and the box of a word in a file is
            // a little wider than its letters.
            const edge = margin * points - 2;
            const out = words.filter((word) => word.left < edge || word.right > size.width * points - edge || word.top < edge - 3 || word.bottom > size.height * points - edge + 3);
            assert.deepEqual(out, []);
          }
          const pictures = picturesOf(pdf, size);
          assert.equal(pictures.length, sheets.length);
          for (const picture of pictures) assert.deepEqual(picture.edges, []);

          if (label) return;
          const text = sheets.map((words) => words.map((word) => word.words).join(" "));
          const whole = (words) => text.findIndex((sheet) => sheet.includes(words));
          if (wanted === 1) {
            assert.equal(whole("on the next sheet"), -1);
          } else {
            // On the first what is done, on the next what it rests on, which says whose it is.
            const first = whole("on the next sheet");
            assert.ok(first >= 0 && first + 1 < sheets.length);
            assert.equal(first, wanted ? 0 : first);
            assert.ok(Math.max(whole("Method"), whole("Salt"), whole("Weigh, in this order")) <= first);
            assert.equal(whole("Take care"), first + 1);
            assert.ok(text[first + 1].startsWith(text[0].slice(0, 12)), "the title stands on both");
          }
          // Nothing is printed smaller than there is room for: Letter is the lower sheet, this the wider font.
          if (wanted === 1 && !html.includes("class=\"fit-0\"") && font === "wide" && format === "Letter")
            assert.ok(pictures[0].empty < 0.2, `${Math.round(100 * pictures[0].empty)} % of the sheet is empty`);
        });
      }
    }
  });
}

for (const font of fonts) {
  describe(`as a picture of its own, in a ${font} font`, { skip: missingFor(font) }, () => {
    let browser;
    let tab;
    before(async () => {
      browser = await launch(font);
      tab = await browser.newPage();
    });
    after(() => browser?.close());
    for (const [name, path] of pages("--svg"))
      test(name, { timeout: patience }, async () => {
        await tab.setContent(readFileSync(path, "utf8").replace(/^<\?xml[^>]*>/, "<!DOCTYPE html><title>.</title>"));
        assert.deepEqual(await layoutFaults(tab), []);
      });
  });
}
