// A book's pages in a folder, from a static host of our own: shared engine, index, and off-line from the second visit on.
import assert from "node:assert/strict";
import { existsSync, readdirSync, readFileSync, rmSync, statSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { book, folder } from "./cards.mjs";
import { broken, desktop, host, launch, missing, numbers, opened, phone, run } from "./pages.mjs";

const skip = missing();
const site = join(folder, "site");
let browser;
let server;
before(async () => {
  if (skip) return;
  const done = run("page", ".", "-o", site);
  if (done.status > 1) throw new Error(done.stderr);
  browser = await launch();
  server = await host(site);
});
after(async () => {
  await browser?.close();
  await server?.close();
  rmSync(folder, { recursive: true });
});

const ours = (page) => page.asked.filter((url) => !url.startsWith(server.address));

test("has a page for every recipe, an index, and one engine for all", { skip }, () => {
  const files = readdirSync(site);
  for (const name of book) assert.ok(existsSync(join(site, `${name}.html`)), name);
  assert.ok(files.includes("index.html"));
  assert.equal(files.filter((name) => name.startsWith("engine-")).length, 1);
  for (const name of book) assert.ok(statSync(join(site, `${name}.html`)).size < 200_000, name);
});

test("has a manifest whose files are there", { skip }, () => {
  const name = readFileSync(join(site, "index.html"), "utf8").match(/rel="manifest" href="([^"]+)"/)[1];
  const manifest = JSON.parse(readFileSync(join(site, name), "utf8"));
  assert.ok(manifest.name && manifest.start_url && manifest.display && manifest.icons.length > 0);
  for (const icon of manifest.icons) assert.ok(existsSync(join(site, icon.src)), icon.src);
  assert.ok(existsSync(join(site, manifest.start_url, manifest.start_url.endsWith("/") ? "index.html" : "")));
});

for (const [size, viewport] of [["phone", phone], ["desktop", desktop]]) {
  test(`from the index to a recipe and back, ${size}`, { skip }, async () => {
    const page = await opened(browser, server.address, { living: false, viewport });
    const { tab } = page;
    assert.equal(await tab.locator(".shelf li a").count(), book.length);
    assert.deepEqual(await broken(tab), []);
    await tab.click("a[href*=winter-kraut]");
    await tab.waitForFunction(() => document.body.classList.contains("living"));
    await tab.fill("#c-amount-cabbage", "1.84");
    assert.equal((await numbers(tab)).cabbage, "1840 g");
    assert.deepEqual(await broken(tab), []);
    assert.ok((await tab.evaluate(() => document.documentElement.scrollWidth)) <= viewport.width);
    await tab.click(".up a");
    await tab.waitForSelector(".shelf");
    assert.deepEqual(page.heard, []);
    assert.deepEqual(ours(page), []);
    await page.close();
  });
}

test("every page of it comes to life", { skip }, async () => {
  const page = await opened(browser, server.address, { living: false });
  for (const name of book) {
    await page.tab.goto(`${server.address}${name}.html`);
    await page.tab.waitForFunction(() => document.body.classList.contains("living"));
    assert.ok(Object.keys(await numbers(page.tab)).length > 1, name);
  }
  assert.deepEqual(page.heard, []);
  await page.close();
});

test("works off-line from then on, all of it, also pages that were never opened", { skip }, async () => {
  const other = await host(site);
  const page = await opened(browser, other.address, { living: false });
  const { tab } = page;
  await tab.evaluate(async () => {
    await navigator.serviceWorker.ready;
    if (!navigator.serviceWorker.controller)
      await new Promise((done) => { navigator.serviceWorker.addEventListener("controllerchange", done, { once: true }); });
  });
  await other.close();
  for (const name of ["", "winter-kraut.html", "napa-kimchi.html#units=us", "index.html"]) {
    await tab.goto(other.address + name);
    if (!name.includes("-")) {
      assert.equal(await tab.locator(".shelf li a").count(), book.length);
      continue;
    }
    await tab.waitForFunction(() => document.body.classList.contains("living"));
    assert.ok(Object.keys(await numbers(tab)).length > 1);
  }
  assert.deepEqual(page.heard, []);
  await page.close();
});

test("its policy lets nothing in but what is of its own host", { skip }, async () => {
  const page = await opened(browser, `${server.address}winter-kraut.html`);
  const tried = await page.tab.evaluate(async () => {
    const out = {};
    const script = document.createElement("script");
    try { script.textContent = "document.title = 'owned'"; document.body.append(script); } catch { out.script = "refused"; }
    try { document.body.insertAdjacentHTML("beforeend", "<b>x</b>"); out.markup = "in"; } catch { out.markup = "refused"; }
    try { await fetch("https://elsewhere.invalid/"); out.fetch = "in"; } catch { out.fetch = "refused"; }
    await new Promise((later) => { setTimeout(later, 100); });
    return { ...out, title: document.title };
  });
  assert.notEqual(tried.title, "owned");
  assert.deepEqual([tried.markup, tried.fetch], ["refused", "refused"]);
  assert.deepEqual(ours(page), []);
  await page.close();
});

test("without script its pages are cards, and the index is a list of links", { skip }, async () => {
  const page = await opened(browser, server.address, { living: false, javaScriptEnabled: false });
  await page.tab.click("a[href*=winter-kraut]");
  assert.match(await page.tab.locator("main").innerText(), /1800 g.*cabbage/s);
  assert.ok(!(await page.tab.isVisible("#controls")));
  await page.close();
});
