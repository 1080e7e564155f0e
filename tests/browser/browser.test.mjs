// Cards in a real browser: in the dark, and as a screen reader has them; how they are laid out is in screens.test.mjs and
// sheets.test.mjs.
import assert from "node:assert/strict";
import { rmSync } from "node:fs";
import { after, before, describe, test } from "node:test";
import { axe, launch, missingFor } from "./chromium.mjs";
import { book, folder, pages } from "./cards.mjs";

const skip = missingFor("wide");
const all = [...pages()].filter(([name]) => !book.some((one) => name === `label-${one}`)); // which are all alike here
let browser;

before(async () => {
  if (!skip) browser = await launch();
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
    const { tab, close } = await opened(new Map(all).get("winter-kraut"));
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
});
