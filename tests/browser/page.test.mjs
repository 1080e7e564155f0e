// One living page, from a file, without a network: what a cook does with it at the counter.
import assert from "node:assert/strict";
import { readFileSync, rmSync, statSync } from "node:fs";
import { after, before, describe, test } from "node:test";
import { book, folder, hostile, hostileWords, kitchen } from "./cards.mjs";
import { broken, desktop, launch, median, missing, numbers, opened, phone, publish, run } from "./pages.mjs";

const skip = missing();
let browser;
let kraut;
before(async () => {
  if (skip) return;
  browser = await launch();
  kraut = `file://${publish("kraut.html", "winter-kraut")}`;
});
after(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true });
});

const cabbage = "#c-amount-cabbage";
const text = (tab, place) => tab.locator(place).innerText();
const grams = (figure) => Number(figure.split(" ")[0]);
const more = (tab) => tab.evaluate(() => { document.getElementById("c-more").open = true; });

/** A test at the size of a phone and of a desk, which fails if the page says or asks for anything. */
function flow(name, address, act) {
  for (const [size, viewport] of [["phone", phone], ["desktop", desktop]]) {
    test(`${name}, ${size}`, { skip }, async () => {
      const page = await opened(browser, address(), { viewport, offline: true, acceptDownloads: true });
      await act(page.tab, page);
      assert.deepEqual(page.heard, []);
      assert.deepEqual(page.asked.filter((url) => !url.startsWith("file:") && !url.startsWith("blob:")), []);
      assert.equal(new Set(page.asked.filter((url) => url.startsWith("file:")).map((url) => url.split("#")[0])).size, 1);
      assert.ok((await page.tab.evaluate(() => document.documentElement.scrollWidth)) <= viewport.width);
      await page.close();
    });
  }
}

test("a page is one file of less than a megabyte", { skip }, () => {
  for (const name of book) {
    const { size } = statSync(publish(`${name}.html`, name));
    assert.ok(size < 1_000_000, `${name}: ${size}`);
  }
});

flow("the recipe's own batch is there at once", () => kraut, async (tab) => {
  assert.deepEqual((await numbers(tab)).cabbage, "1800 g");
  assert.match(await text(tab, "#c-verdict"), /salt.*inside the published range/s);
});

flow("a weight is typed, and all that depends on it follows", () => kraut, async (tab) => {
  const was = await numbers(tab);
  await tab.fill(cabbage, "3.6");
  const is = await numbers(tab);
  assert.equal(is.cabbage, "3600 g");
  assert.equal(grams(is.carrot), 2 * grams(was.carrot));
  assert.equal(grams(is.salt), 2 * grams(was.salt));
  await tab.selectOption("[data-unit=cabbage]", "lb");
  assert.equal((await numbers(tab)).cabbage, `${Math.round(3.6 * 453.59237)} g`);
  await tab.fill(cabbage, "4 lb 1 oz");
  assert.equal((await numbers(tab)).cabbage, `${Math.round(4.0625 * 453.59237)} g`);
  await tab.fill(cabbage, "");
  assert.deepEqual(await numbers(tab), was);
});

flow("a comma from a keypad is a point", () => kraut, async (tab) => {
  await tab.fill(cabbage, "1,84");
  assert.equal((await numbers(tab)).cabbage, "1840 g");
});

flow("the jar is given, and the batch fills it", () => kraut, async (tab) => {
  await tab.check("input[name=by][value=jar]", { force: true });
  await tab.selectOption("#c-jar-which", "=tall");
  const one = grams((await numbers(tab)).cabbage);
  assert.ok(one > 500 && one < 1800, String(one));
  await tab.fill("#c-have", "2");
  assert.ok(Math.abs(grams((await numbers(tab)).cabbage) - 2 * one) <= 3);
  await tab.selectOption("#c-jar-which", "1500");
  assert.ok(Math.abs(grams((await numbers(tab)).cabbage) - one) <= 1);
  assert.equal(await tab.locator("#card .jars svg").count(), 0);
  await tab.fill("#c-across", "10");
  assert.equal(await tab.locator("#card .jars svg").count(), 1);
  assert.match(await text(tab, "#card .jars"), /1\.5\sL brimful/);
  await tab.fill("#c-brimful", "3");
  await tab.selectOption("#c-brimful-unit", "1000");
  assert.ok(Math.abs(grams((await numbers(tab)).cabbage) - 2 * one) <= 3);
  await tab.fill("#c-brimful", "");
  assert.match(await text(tab, "#card"), /How much does the jar hold/);
});

flow("so much salt is left, and the batch is what it salts", () => kraut, async (tab) => {
  await tab.check("input[name=by][value=salt]", { force: true });
  assert.match(await text(tab, "#card"), /How much salt is left/);
  assert.deepEqual(await numbers(tab), {});
  await tab.fill("#c-salt-amount", "24");
  const is = await numbers(tab);
  assert.equal(is.salt, "24.0 g");
  assert.ok(Math.abs(grams(is.cabbage) - 24 / 0.022 / 1.06) < 5, is.cabbage);
});

flow("the reader's scale decides what is waited for", () => kraut, async (tab) => {
  await more(tab);
  await tab.fill(cabbage, "1.84");
  await tab.selectOption("#c-step", "5");
  for (const figure of Object.entries(await numbers(tab)).filter(([, one]) => one.endsWith("g")))
    assert.equal(grams(figure[1]) % 5, 0, figure.join());
  await tab.selectOption("#c-step", "0.1");
  assert.match((await numbers(tab)).salt, /^\d+\.\d g$/);
});

flow("without a scale there are spoons, how far they may be off, and a warning", () => kraut, async (tab) => {
  await more(tab);
  await tab.selectOption("#c-step", "none");
  assert.ok(await tab.isVisible("#spoons"));
  const row = await text(tab, "#c-spoons-rows tr:has-text('salt')");
  assert.match(row, /(tsp|tbsp|cup).*\d.* to \d.* g/s);
  assert.ok((await text(tab, "#c-spoons-words")).length > 20);
  const options = await tab.locator("#c-grain option").evaluateAll((all) => all.map((one) => one.value).filter(Boolean));
  assert.ok(options.length >= 3, options.join());
  const seen = new Set();
  for (const grain of options) {
    await tab.selectOption("#c-grain", grain);
    seen.add(await text(tab, "#c-spoons-rows tr:has-text('salt')"));
  }
  assert.ok(seen.size > 1);
  await tab.selectOption("#c-step", "1");
  assert.ok(!(await tab.isVisible("#spoons")));
});

flow("metric, American, or both", () => kraut, async (tab) => {
  await more(tab);
  await tab.check("input[name=units][value=us]", { force: true });
  assert.equal(await tab.inputValue("[data-unit=cabbage]"), "lb");
  assert.match(await text(tab, "#card"), /\soz\b/);
  await tab.check("input[name=units][value=metric]", { force: true });
  assert.doesNotMatch(await text(tab, "#card"), /\soz\b/);
});

flow("from a day of packing there are dates, and a file for the calendar", () => kraut, async (tab) => {
  await more(tab);
  assert.ok(await tab.isDisabled("#c-calendar"));
  await tab.fill("#c-start", "2026-11-25");
  assert.match(await text(tab, "#card .dates"), /26 Nov/);
  const [file] = await Promise.all([tab.waitForEvent("download"), tab.click("#c-calendar")]);
  assert.equal(file.suggestedFilename(), "Quay-Street-winter-kraut.ics");
  const calendar = readFileSync(await file.path(), "utf8");
  assert.match(calendar, /^BEGIN:VCALENDAR\r\n/);
  assert.match(calendar, /END:VCALENDAR\r\n$/);
  assert.match(calendar, /DTSTART[^:]*:20261126/);
  await tab.click("#c-today");
  assert.match(await tab.inputValue("#c-start"), /^20\d\d-\d\d-\d\d$/);
});

flow("a refusal says what is wrong, and no number is left to be taken for an answer", () => kraut, async (tab) => {
  await tab.fill(cabbage, "1.84 lemon");
  assert.match(await text(tab, "#c-fault"), /“lemon” is not a unit/);
  assert.match(await text(tab, "#card"), /lemon/);
  assert.deepEqual(await numbers(tab), {});
  assert.equal(await tab.getAttribute(cabbage, "aria-invalid"), "true");
  assert.match(await tab.getAttribute(cabbage, "aria-describedby"), /c-fault/);
  assert.ok(await tab.isDisabled("#c-counter"));
  await tab.waitForFunction(() => document.getElementById("c-live").textContent.includes("lemon"));
  await tab.fill(cabbage, "0");
  assert.match(await text(tab, "#c-fault"), /cannot be 0/);
  await tab.fill(cabbage, "2");
  assert.equal((await numbers(tab)).cabbage, "2000 g");
  assert.equal(await tab.getAttribute(cabbage, "aria-invalid"), null);
  assert.equal(await text(tab, "#c-fault"), "");
});

flow("the verdict on the salt is said to a screen reader, once the typing stops", () => kraut, async (tab) => {
  assert.equal(await tab.getAttribute("#c-live", "role"), "status");
  await tab.fill(cabbage, "2.5");
  await tab.waitForFunction(() => /58.3 g salt.*inside/.test(document.getElementById("c-live").textContent));
});

flow("at the counter there is one step at a time, and the screen stays lit", () => kraut, async (tab) => {
  await tab.fill(cabbage, "1.84");
  await tab.click("#c-counter");
  assert.match(await text(tab, "#c-step-count"), /^1 of \d+$/);
  assert.match(await text(tab, "#c-step-now"), /1840/);
  await tab.waitForFunction(() => document.getElementById("c-awake").textContent !== "");
  assert.match(await text(tab, "#c-awake"), /stays on/);
  const all = Number((await text(tab, "#c-step-count")).split(" ")[2]);
  const seen = [];
  for (let i = 0; i < all; ++i) {
    seen.push(await text(tab, "#c-step-now"));
    await tab.keyboard.press("ArrowRight");
  }
  assert.equal(await text(tab, "#c-step-count"), `${all} of ${all}`);
  assert.equal(new Set(seen).size, all);
  assert.ok(seen.some((one) => /Pack into clean jars/.test(one)));
  await tab.keyboard.press("ArrowLeft");
  assert.equal(await text(tab, "#c-step-count"), `${all - 1} of ${all}`);
  await tab.keyboard.press("Escape");
  assert.ok(!(await tab.isVisible("#counter")));
  await tab.click("#c-counter");
  assert.equal(await text(tab, "#c-step-count"), `${all - 1} of ${all}`);
  await tab.click("#c-next");
  assert.equal(await text(tab, "#c-next"), "Done");
  await tab.click("#c-next");
  assert.ok(!(await tab.isVisible("#counter")));
});

flow("the address is the batch: a link opened elsewhere shows the same", () => kraut, async (tab, { context }) => {
  await more(tab);
  await context.grantPermissions(["clipboard-read", "clipboard-write"]);
  await tab.fill(cabbage, "2.35");
  await tab.selectOption("#c-step", "1");
  await tab.fill("#c-start", "2026-11-25");
  await tab.click("#c-copy");
  await tab.waitForFunction(() => document.getElementById("c-said").textContent !== "");
  const link = await tab.evaluate(() => navigator.clipboard.readText());
  assert.match(link, /^file:.*#\.cabbage=2\.35\+kg&step=1&start=2026-11-25$/);
  await tab.waitForFunction((want) => location.href === want, link);
  const other = await opened(browser, link);
  assert.deepEqual(await numbers(other.tab), await numbers(tab));
  assert.equal(await text(other.tab, "#card"), await text(tab, "#card"));
  assert.equal(await other.tab.inputValue(cabbage), "2.35");
  await other.tab.evaluate(() => { location.hash = "#salt=24g&by=salt"; });
  await other.tab.waitForFunction(() => document.getElementById("c-salt-amount").value === "24");
  assert.equal((await numbers(other.tab)).salt, "24.0 g");
  await other.close();
  await more(tab);
  await tab.click("#c-again");
  assert.equal((await numbers(tab)).cabbage, "1800 g");
});

flow("a recipe from elsewhere is appraised in the page", () => kraut, async (tab) => {
  await tab.click("#c-appraise summary");
  await tab.fill("#c-text", "2 lb cabbage, shredded\n1 tbsp fine sea salt\n<img src=x onerror=\"document.title='owned'\">");
  await tab.waitForFunction(() => /cabbage/.test(document.getElementById("c-found").textContent));
  assert.match(await text(tab, "#c-found"), /907/);
  assert.equal(await tab.locator("#c-found img").count(), 0);
  await tab.fill("#c-text", "1 medium head of cabbage\n1 1/2 tbsp sea salt");
  await tab.waitForFunction(() => /UNDECIDED/.test(document.getElementById("c-found").textContent));
  assert.doesNotMatch(await text(tab, "#c-found"), /--/); // there is no command line here
  await tab.fill("#c-text", "");
  await tab.waitForFunction(() => document.getElementById("c-found").textContent === "");
});

flow("optional things can be left out", () => `file://${publish("apple.html", "kraut-with-apple")}`, async (tab) => {
  await more(tab);
  assert.ok("apple" in await numbers(tab));
  await tab.uncheck("[data-optional=apple]");
  assert.ok(!("apple" in await numbers(tab)));
  assert.match(await text(tab, "#c-head"), /without apple/);
});

flow("what is weighed later can be entered when it is", () => `file://${publish("kimchi.html", "napa-kimchi")}`, async (tab) => {
  const was = await numbers(tab);
  await tab.selectOption("[data-unit=drained]", "kg");
  await tab.fill("#c-amount-drained", "1.5");
  const is = await numbers(tab);
  assert.notEqual(is.salt, was.salt);
});

const hostileAddresses = [
  "#<script>document.title='owned'</script>", "#.cabbage=<img src=x onerror=alert(1)>", "#units=javascript:alert(1)",
  "#jar=%22%3E%3Cimg%20src=x%20onerror=alert(1)%3E", "#__proto__=1&constructor=2&.__proto__=1kg", `#salt=${"9".repeat(5000)}`, "#%E0%A4%A",
  "#c-verdict", "#without=apple&grain=..%2F..&start=0000-00-00",
];
for (const fragment of hostileAddresses) {
  test(`an address that means harm does nothing: ${fragment.slice(0, 40)}`, { skip }, async () => {
    const page = await opened(browser, kraut);
    const own = await text(page.tab, "#card");
    const other = await opened(browser, kraut + fragment);
    assert.equal(await text(other.tab, "#card"), own);
    assert.match(await text(other.tab, "#c-said"), /not understood/);
    assert.notEqual(await other.tab.title(), "owned");
    assert.equal(await other.tab.locator("img, iframe, object, embed").count(), 0);
    assert.deepEqual(other.heard, []);
    await page.close();
    await other.close();
  });
}

test("what a hostile recipe says is only ever words", { skip }, async () => {
  const page = await opened(browser, `file://${publish("hostile.html", hostile, "--kitchen", kitchen)}`, { offline: true });
  await page.tab.fill(cabbage, "2.2");
  await page.tab.click("#c-counter");
  for (let i = 0; i < 30; ++i) await page.tab.keyboard.press("ArrowRight");
  assert.notEqual(await page.tab.title(), "owned");
  assert.equal(await page.tab.locator("body :is(img, iframe, object, form, link, base, [src], [onerror], [style])").count(), 0);
  assert.equal(await page.tab.locator("body a:not(.skip, .up a)").count(), 0);
  const shown = await page.tab.evaluate(() => document.querySelector("h1").textContent);
  assert.ok(shown.includes(hostileWords.slice(0, 60)), shown);
  assert.deepEqual(page.heard, []);
  assert.equal(new Set(page.asked.map((url) => url.split("#")[0])).size, 1);
  await page.close();
});

describe("the content security policy", { skip }, () => {
  test("keeps a script that got in from running, and anything from leaving", async () => {
    const page = await opened(browser, kraut);
    const tried = await page.tab.evaluate(async () => {
      const script = document.createElement("script");
      const image = document.createElement("img");
      const out = {};
      try { script.textContent = "document.title = 'owned'"; document.body.append(script); } catch { out.script = "refused"; }
      try { image.setAttribute("onerror", "document.title = 'owned'"); image.src = "https://elsewhere.invalid/x"; document.body.append(image); } catch { out.image = "refused"; }
      try { document.body.insertAdjacentHTML("beforeend", "<b>x</b>"); out.markup = "in"; } catch { out.markup = "refused"; }
      try { trustedTypes.createPolicy("other", {}); out.policy = "in"; } catch { out.policy = "refused"; }
      try { trustedTypes.createPolicy("jarful", {}); out.again = "in"; } catch { out.again = "refused"; }
      try { await fetch("https://elsewhere.invalid/"); out.fetch = "in"; } catch { out.fetch = "refused"; }
      const style = document.createElement("style");
      style.textContent = "body { margin: 77px }";
      document.head.append(style);
      await new Promise((later) => { setTimeout(later, 200); });
      return { ...out, title: document.title, margin: getComputedStyle(document.body).marginTop };
    });
    assert.notEqual(tried.title, "owned");
    assert.notEqual(tried.margin, "77px");
    assert.deepEqual([tried.markup, tried.policy, tried.again, tried.fetch], ["refused", "refused", "refused", "refused"]);
    assert.ok(page.heard.some((words) => /Content Security Policy/.test(words)));
    assert.equal(new Set(page.asked.map((url) => url.split("#")[0])).size, 1, page.asked.join());
    await page.close();
  });
});

test("without script it is the card with the recipe's own batch", { skip }, async () => {
  const page = await opened(browser, kraut, { living: false, javaScriptEnabled: false });
  assert.match(await text(page.tab, "main"), /1800 g.*cabbage/s);
  assert.match(await text(page.tab, "main"), /Pack into clean jars/);
  assert.ok(!(await page.tab.isVisible("#controls")));
  assert.ok(!(await page.tab.isVisible("#appraise")));
  await page.close();
});

test("without WebAssembly it is the card, and says why it is no more", { skip }, async () => {
  const context = await browser.newContext({ viewport: phone });
  const tab = await context.newPage();
  await tab.addInitScript(() => { delete globalThis.WebAssembly; });
  await tab.goto(kraut);
  await tab.waitForSelector(".page-note");
  assert.match(await text(tab, ".page-note"), /cannot work the page out/);
  assert.match(await text(tab, "main"), /1800 g.*cabbage/s);
  assert.ok(!(await tab.isVisible("#controls")));
  await context.close();
});

test("on paper it is the card alone", { skip }, async () => {
  const page = await opened(browser, kraut);
  await page.tab.emulateMedia({ media: "print" });
  for (const place of ["#controls", "#appraise", "#c-skip"]) assert.ok(!(await page.tab.isVisible(place)), place);
  assert.ok(await page.tab.isVisible("h1"));
  assert.ok(await page.tab.isVisible("#card .numbers"));
  await page.close();
});

// By the estimate of the command line a card has room in every usual font; what is measured in this one is as large, or larger.
test("another batch is printed as large as it has room, on one sheet or two", { skip }, async () => {
  const page = await opened(browser, `file://${publish("sours.html", "half-sours")}`, { viewport: desktop });
  const printed = async (format) => (await page.tab.pdf({ format })).toString("latin1").match(/\/Type\s*\/Page\b/g).length;
  const fit = (html) => { const [, size, two] = html.match(/fit-(\d)( two-sheets)?/); return { size: Number(size), sheets: two ? 2 : 1 }; };
  const now = () => page.tab.evaluate(() => document.documentElement.className);
  const published = fit(await now());
  const seen = new Set();
  for (const amount of ["", "300 g", "1.9 kg", "4.4 kg", ""]) {
    await page.tab.fill("#c-amount-cucumbers", amount);
    const card = fit(run("card", "half-sours", ...(amount ? [`cucumbers=${amount}`] : [])).stdout.match(/<html [^>]*>/)[0]);
    for (const format of ["A4", "Letter"]) {
      const sheets = await printed(format);
      const { size, sheets: wanted } = fit(await now());
      seen.add(`${size} ${wanted}`);
      assert.equal(sheets, wanted, `${amount}, ${format}: ${await now()}`);
      assert.ok(wanted < card.sheets || size <= card.size, `${amount}, ${format}: ${await now()}, and the card ${JSON.stringify(card)}`);
      if (!amount) assert.deepEqual({ size, sheets: wanted }, published);
    }
    // Nothing of it is left on the screen.
    assert.equal(await page.tab.evaluate(() => document.body.style.width), "");
    assert.ok(await page.tab.isVisible("#controls"));
  }
  assert.ok(seen.size > 1, [...seen].join());
  assert.deepEqual(page.heard, []);
  await page.close();
});

test("everything can be reached and worked with the keyboard, in the order in which it stands", { skip }, async () => {
  const page = await opened(browser, kraut, { viewport: desktop });
  const seen = [];
  for (let i = 0; i < 40; ++i) {
    await page.tab.keyboard.press("Tab");
    const at = await page.tab.evaluate(() => {
      const one = document.activeElement;
      const box = one.getBoundingClientRect();
      const style = getComputedStyle(one.matches(".choices input") ? one.nextElementSibling : one);
      return [one.id || one.name || one.localName, box.width > 0 && box.height > 0 && style.outlineStyle !== "none"];
    });
    if (at[0] === "body" || at[0] === seen[0]) break;
    assert.ok(at[1], `${at[0]} has no visible focus`);
    seen.push(at[0]);
  }
  const wanted = ["c-skip", "by", "c-amount-cabbage", "c-counter", "c-copy", "c-jar-which", "c-step", "units", "c-start", "c-calendar", "c-print"];
  const found = wanted.filter((id) => id === "c-calendar" || seen.includes(id));
  assert.deepEqual(found, wanted, seen.join());
  const order = wanted.filter((id) => id !== "c-calendar").map((id) => seen.indexOf(id));
  assert.deepEqual(order, [...order].sort((a, b) => a - b));
  await page.tab.focus("input[name=by]:checked");
  await page.tab.keyboard.press("ArrowRight");
  assert.ok(await page.tab.isVisible("#c-jar-place #c-jar"));
  await page.close();
});

test("the numbers can be reached past the controls, and the batch stays what it is", { skip }, async () => {
  const page = await opened(browser, kraut);
  await page.tab.fill(cabbage, "2.2");
  await page.tab.focus("#c-skip");
  await page.tab.keyboard.press("Enter");
  assert.equal(await page.tab.evaluate(() => document.activeElement.id), "card");
  assert.equal((await numbers(page.tab)).cabbage, "2200 g");
  await page.close();
});

test("at the counter a finger drawn sideways turns over, drawn down it does not", { skip }, async () => {
  const page = await opened(browser, kraut, { hasTouch: true });
  await page.tab.click("#c-counter");
  const draw = (x, y) => page.tab.evaluate(([toX, toY]) => {
    const at = (type, clientX, clientY) => document.getElementById("c-step-now")
      .dispatchEvent(new PointerEvent(type, { pointerType: "touch", bubbles: true, clientX, clientY }));
    at("pointerdown", 200, 400);
    at("pointerup", 200 + toX, 400 + toY);
  }, [x, y]);
  const step = async () => (await text(page.tab, "#c-step-count")).split(" ")[0];
  await draw(-120, 10);
  assert.equal(await step(), "2");
  await draw(10, -300);
  assert.equal(await step(), "2");
  await draw(120, 10);
  assert.equal(await step(), "1");
  await page.close();
});

test("at twice the size, and on a narrow screen, nothing runs off the side", { skip }, async () => {
  for (const width of [640, 320]) {
    const page = await opened(browser, `${kraut}#by=jar&jar=1500x10&units=both&step=none&start=2026-11-25`, { viewport: { width, height: 500 } });
    await more(page.tab);
    assert.ok((await page.tab.evaluate(() => document.documentElement.scrollWidth)) <= width);
    await page.close();
  }
});

const looks = [
  ["as it opens", "", async () => {}],
  ["all controls", "#by=jar&jar=1500x10&units=both&start=2026-11-25", more],
  ["no scale", "#step=none", more],
  ["a refusal", "", (tab) => tab.fill(cabbage, "much")],
  ["a warning", "#by=jar&jar=10", more],
  ["at the counter", "", (tab) => tab.click("#c-counter")],
  ["an appraisal", "", async (tab) => {
    await tab.click("#c-appraise summary");
    await tab.fill("#c-text", "1 medium head of cabbage\n1 1/2 tbsp sea salt");
    await tab.waitForFunction(() => /cabbage/.test(document.getElementById("c-found").textContent));
  }],
];
for (const [name, fragment, act] of looks) {
  test(`has names, roles, contrast and order: ${name}`, { skip }, async () => {
    for (const colorScheme of ["light", "dark"]) {
      for (const viewport of [phone, desktop]) {
        const page = await opened(browser, kraut + fragment, { viewport, colorScheme, reducedMotion: "reduce" });
        await act(page.tab);
        assert.deepEqual(await broken(page.tab), [], `${colorScheme}, ${viewport.width}`);
        assert.deepEqual(page.heard, []);
        await page.close();
      }
    }
  });
}

test("is ready, and answers, in good time (told, not judged)", { skip }, async (t) => {
  const ready = [];
  const updates = [];
  for (let i = 0; i < 5; ++i) {
    const page = await opened(browser, kraut, { viewport: phone });
    ready.push(await page.tab.evaluate(() => performance.getEntriesByName("jarful-ready")[0].startTime));
    for (let n = 0; n < 20; ++n) await page.tab.fill(cabbage, `1.${10 + n}`);
    updates.push(...await page.tab.evaluate(() => performance.getEntriesByName("jarful-update").map((one) => one.duration)));
    await page.close();
  }
  t.diagnostic(`ready after ${Math.round(median(ready))} ms, an update takes ${median(updates).toFixed(1)} ms (medians of ${ready.length} and ${updates.length})`);
  assert.ok(updates.length >= 100);
});
