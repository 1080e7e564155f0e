// Cards and living pages on screens, as pictures: where each block stands, what overlaps, what is cut; on a phone, on a
// desk and where one turns into the other, in a wide font and in a narrow one.
import assert from "node:assert/strict";
import { rmSync } from "node:fs";
import { join } from "node:path";
import { after, before, describe, test } from "node:test";
import { launch, missingFor, patience } from "./chromium.mjs";
import { book, folder, hostile, kitchen, pages } from "./cards.mjs";
import { fonts } from "./fonts.mjs";
import { inked, layoutFaults, places } from "./layout.mjs";
import { host, missing, opened, publish, run } from "./pages.mjs";

after(() => rmSync(folder, { recursive: true }));
const cards = [...pages()].filter(([name]) => !name.startsWith("label-") || name === "label-hostile");
const noEngine = missing({ browser: false });
const screens = { "a phone": { width: 360, height: 740 }, "a wide phone": { width: 740, height: 360 }, "a small desk": { width: 992, height: 768 }, "a desk": { width: 1280, height: 900 }, "a wide desk": { width: 1920, height: 1080 } };
const desk = 992;

let served;
let server;
before(async () => {
  if (noEngine) return;
  const site = join(folder, "site");
  const done = run("page", ".", "-o", site);
  if (done.status > 1) throw new Error(done.stderr);
  server = await host(site);
  served = server.address;
});
after(() => server?.close());

/** Where the blocks of a living page have to stand. */
async function arranged(tab, viewport) {
  const at = await places(tab, [".up", "#c-head h1", "#controls", "#card", "#card .numbers"]);
  const title = at["#c-head h1"];
  const tray = at["#controls"];
  const card = at["#card"];
  assert.ok(title.top >= 0 && title.bottom < viewport.height, `the title stands at ${title.top}`);
  assert.ok(title.bottom <= tray.top && title.bottom <= card.top, "the title stands above the rest");
  if (at[".up"]) assert.ok(at[".up"].bottom <= title.top, "the way back stands on top");
  if (viewport.width < desk) {
    assert.ok(tray.bottom <= card.top, "the card stands below the tray");
  } else {
    assert.ok(tray.right <= card.left, "the tray stands at the left of the card");
    assert.ok(Math.abs(tray.top - card.top) < 2, `the tray begins at ${tray.top}, the card at ${card.top}`);
    assert.ok(at["#card .numbers"].top < viewport.height / 2, "the numbers are to be seen at once");
  }
}

for (const font of fonts) {
  describe(`on a screen, in a ${font} font`, { skip: missingFor(font) }, () => {
    let browser;
    let helper;
    before(async () => {
      browser = await launch(font);
      helper = await browser.newPage();
    });
    after(() => browser?.close());

    test("the font is the only one", async () => {
      // Whatever family is asked for, the letters have the one font's widths; both fonts' own tables say these.
      const widths = await helper.evaluate(() => ["system-ui", "serif", "monospace", "Arial"].map((family) => {
        const pen = document.createElement("canvas").getContext("2d");
        pen.font = `100px ${family}`;
        return Math.round(pen.measureText("m").width);
      }));
      assert.deepEqual(widths, Array(4).fill(font === "wide" ? 97 : 68));
    });

    for (const [name, path] of cards)
      test(`the card of ${name}`, { timeout: patience }, async () => {
        await helper.goto(`file://${path}`);
        for (const [screen, viewport] of Object.entries(screens)) {
          await helper.setViewportSize(viewport);
          assert.deepEqual(await layoutFaults(helper), [], screen);
        }
        await helper.goto("about:blank");
      });

    /** A living page, once opened, on one screen after the other. */
    async function onScreens(address, look) {
      const page = await opened(browser, address, { viewport: screens["a phone"] });
      for (const [screen, viewport] of Object.entries(screens)) {
        await page.tab.setViewportSize(viewport);
        await page.tab.evaluate(() => scrollTo(0, 0));
        await look(page.tab, screen, viewport);
      }
      await page.close();
    }

    /** Its layout, where its blocks stand, and that no part of its picture is left white. */
    const living = (address, act = async () => {}) => onScreens(address, async (tab, screen, viewport) => {
      await act(tab);
      assert.deepEqual(await layoutFaults(tab), [], screen);
      await arranged(tab, viewport);
      const ink = await inked(helper, await tab.screenshot(), viewport.width < desk
        ? { top: [0, 0, 1, 0.5], bottom: [0, 0.5, 1, 1] }
        : { "top left": [0, 0, 0.35, 0.5], "top right": [0.4, 0, 1, 0.5], "bottom right": [0.4, 0.5, 1, 1] });
      for (const [part, share] of Object.entries(ink)) assert.ok(share > 0.01, `${screen}: the ${part} is empty`);
    });
    const options = { skip: noEngine, timeout: patience };

    // All of the book in the wide font; what is narrower has more room in every way.
    for (const name of font === "wide" ? book : ["napa-kimchi", "winter-kraut"])
      test(`a book's page of ${name}`, options, () => living(`${served}${name}.html`));
    for (const [name, words] of [["winter-kraut", []], [hostile, ["--kitchen", kitchen]]])
      test(`a page of one file, ${name === hostile ? "hostile" : name}`, options, () => living(`file://${publish(`${font}.html`, name, ...words)}`));
    test("a page with everything set", options, () => living(`${served}winter-kraut.html#by=jar&jar=1500x10&units=both&start=2026-11-25`,
      (tab) => tab.evaluate(() => { document.getElementById("c-more").open = true; })));
    test("a page without a scale", options, () => onScreens(`${served}winter-kraut.html#step=none`, async (tab, screen) => {
      assert.deepEqual(await layoutFaults(tab), [], screen);
      const at = await places(tab, ["#c-head h1", "#spoons", "#card"]);
      assert.ok(at["#c-head h1"].bottom <= at["#spoons"].top && at["#spoons"].bottom <= at["#card"].top, screen);
    }));
    test("a page that has no numbers to show", options, () => onScreens(`${served}winter-kraut.html`, async (tab, screen, viewport) => {
      await tab.fill("#c-amount-cabbage", "much");
      assert.deepEqual(await layoutFaults(tab), [], screen);
      const at = await places(tab, ["#controls", "#card"]);
      if (viewport.width >= desk) assert.ok(Math.abs(at["#controls"].top - at["#card"].top) < 2, screen);
    }));
    test("at the counter", options, () => onScreens(`${served}winter-kraut.html`, async (tab, screen) => {
      await tab.click("#c-counter");
      for (let i = 0; i < 30; ++i) {
        assert.deepEqual(await layoutFaults(tab), [], `${screen}, step ${i + 1}`);
        if ((await tab.locator("#c-next").innerText()) === "Done") break;
        await tab.keyboard.press("ArrowRight");
      }
      await tab.keyboard.press("Escape");
    }));
    test("the shelf", { skip: noEngine, timeout: patience }, async () => {
      for (const [screen, viewport] of Object.entries(screens)) {
        const page = await opened(browser, served, { living: false, viewport });
        assert.deepEqual(await layoutFaults(page.tab), [], screen);
        await page.close();
      }
    });
  });
}
