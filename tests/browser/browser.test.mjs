// Cards in a real browser: on paper, on a phone, in the dark, and as a screen reader has them.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { readFileSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { after, before, describe, test } from "node:test";
import { chromium } from "playwright-core";
import { folder, pages, there } from "./cards.mjs";

const browserPath = process.env.JARFUL_BROWSER ?? "/usr/bin/chromium";
const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const skip = there(browserPath, "--version") ? false : `no browser at ${browserPath}`;
const all = pages();
let browser;

before(async () => {
  if (skip) return;
  browser = await chromium.launch({
    executablePath: browserPath,
    args: [
      "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
      "--disable-background-networking", "--disable-component-update", "--disable-sync",
    ],
  });
});
after(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true });
});

/** Opens a page; whatever it asks for or complains of is collected. */
async function opened(path, options = {}) {
  const context = await browser.newContext(options);
  const tab = await context.newPage();
  const heard = [];
  tab.on("console", (message) => heard.push(message.text()));
  tab.on("pageerror", (error) => heard.push(String(error)));
  tab.on("dialog", (dialog) => { heard.push(dialog.message()); dialog.dismiss(); });
  tab.on("request", (request) => { if (request.url() !== `file://${path}`) heard.push(request.url()); });
  await tab.goto(`file://${path}`);
  return { tab, heard, close: () => context.close() };
}

const sheets = there("pdfinfo", "-v") ? ["A4", "Letter"] : [];
if (!sheets.length) test("prints on one sheet", { skip: "pdfinfo is not installed" }, () => {});

for (const [name, path] of all) {
  test(name, { skip }, async (t) => {
    const { tab, heard, close } = await opened(path, { viewport: { width: 360, height: 740 } });

    await t.test("does not run over the width of a phone", async () => {
      assert.ok((await tab.evaluate(() => document.documentElement.scrollWidth)) <= 360);
    });

    await t.test("lets its style sheet through, and has nothing but words and drawings", async () => {
      assert.equal(await tab.evaluate(() => getComputedStyle(document.body).marginTop), "0px");
      assert.notEqual(await tab.title(), "owned");
      assert.equal(
        await tab.locator("script, link, img, iframe, object, form, a, [src], [href], [style]").count(),
        0,
      );
    });

    // A title of several lines on each of eight labels is more than a sheet takes.
    for (const format of name === "label-hostile" ? [] : sheets) {
      await t.test(`prints on one sheet of ${format}`, async () => {
        const pdf = join(folder, `${name}-${format}.pdf`);
        await tab.pdf({ path: pdf, format });
        const told = execFileSync("pdfinfo", [pdf], { encoding: "utf8" });
        assert.equal(told.match(/^Pages:\s+(\d+)$/m)[1], "1");
      });
    }

    await t.test("asks for nothing and complains of nothing", () => assert.deepEqual(heard, []));

    await tab.setViewportSize({ width: 1200, height: 900 });
    await tab.evaluate(axe);
    for (const colorScheme of ["light", "dark"]) {
      await t.test(`has contrast, names and order, ${colorScheme}`, async () => {
        await tab.emulateMedia({ colorScheme });
        const found = await tab.evaluate(() =>
          axe.run(document, { runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] }),
        );
        assert.ok(found.passes.some((pass) => pass.id === "color-contrast"));
        assert.deepEqual(
          found.violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.html).join(" | ").slice(0, 300)}`),
          [],
        );
      });
    }
    await close();
  });
}

describe("a drawing", { skip }, () => {
  test("is one picture with a name and a description", async () => {
    const { tab, close } = await opened(all.get("winter-kraut"));
    const pictures = await tab.locator("svg").evaluateAll((found) =>
      found.map((svg) => [svg.getAttribute("role"), svg.getAttribute("aria-labelledby")
        .split(" ").map((id) => document.getElementById(id).textContent).join(" ")]));
    assert.ok(pictures.length >= 2);
    for (const [role, words] of pictures) {
      assert.equal(role, "img");
      assert.ok(words.length > 30, words);
    }
    assert.match(await tab.locator("main").ariaSnapshot(), /img "Salt on a ruler This batch stands at/);
    await close();
  });

  test("has no words that run out of it", async () => {
    for (const path of all.values()) {
      const { tab, close } = await opened(path);
      const out = await tab.locator("svg text").evaluateAll((found) =>
        found.filter((text) => {
          const a = text.getBoundingClientRect();
          const b = text.ownerSVGElement.getBoundingClientRect();
          return a.left < b.left - 1 || a.right > b.right + 1 || a.top < b.top - 1 || a.bottom > b.bottom + 1;
        }).map((text) => text.textContent));
      assert.deepEqual(out, [], path);
      await close();
    }
  });
});
