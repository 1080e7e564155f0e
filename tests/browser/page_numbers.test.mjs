// The same numbers on the page as from the command line: the demo book, weighed 500 times over, at random.
import assert from "node:assert/strict";
import { readFileSync, rmSync, writeFileSync } from "node:fs";
import { after, before, test } from "node:test";
import { join } from "node:path";
import { book, folder, kitchen } from "./cards.mjs";
import { launch, missing, opened, publish, run } from "./pages.mjs";

const skip = missing();
const questions = 500;
const seed = Number(process.env.JARFUL_SEED ?? 20261126);
let browser;
let blank; // a document of no page, for parsing what the command line printed
before(async () => {
  if (skip) return;
  browser = await launch();
  blank = await browser.newPage();
});
after(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true });
});

/** A generator of our own: the same numbers on every run, for a seed. */
function random(state) {
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}
const next = random(seed);
const whether = (share) => next() < share;
const oneOf = (list) => list[Math.floor(next() * list.length)];
const between = (low, high) => low * (high / low) ** next();

/** A weight as a cook would type it. */
function weight(low, high) {
  const grams = between(low, high);
  return oneOf([
    () => `${grams.toFixed(0)} g`, () => `${grams.toFixed(1)}g`, () => `${(grams / 1000).toFixed(3)} kg`,
    () => `${(grams / 453.59237).toFixed(2)} lb`, () => `${(grams / 28.349523125).toFixed(1)} oz`,
    () => `${(grams / 2).toFixed(0)}g+${(grams / 2).toFixed(0)}g`,
  ])();
}

/** What the kitchen file of a reader with a scale or a jar of their own would say. */
function kitchenOf({ step, jar, have, room }) {
  let text = readFileSync(kitchen, "utf8");
  const replace = (pattern, lines) => { text = text.replace(pattern, "") + lines; };
  if (step) replace(/^scale .*\n/gm, step < 0.5
    ? `scale mine reads ${step} g up to 500 g within ${step} g\nscale bowl reads 1 g up to 5 kg within 1 g\n`
    : `scale mine reads ${step} g up to ${5000 * Math.max(1, step)} g within ${step} g\n`);
  if (jar) replace(/^(jar|crock) .*\n/gm, `jar mine holds ${jar[0]} mL brimful${jar[1] ? ` across ${jar[1]} cm` : ""} have ${have}\n`);
  if (room) replace(/^room .*\n/gm, `room ${room} °C\n`);
  if (step || jar) text = text.replace("\"Quay Street\"", `"your own ${[step && "scale", jar && "jar"].filter(Boolean).join(" and ")}"`);
  const path = join(folder, "reader.jarful");
  writeFileSync(path, text);
  return path;
}

/** A question at random: as an address of the page, and as words of the command line. */
function question(loaded) {
  const fragment = new URLSearchParams();
  const words = [];
  const reader = {};
  const by = oneOf(["produce", "produce", "produce", "jar", loaded.salts.length > 0 ? "salt" : "produce"]);
  if (by !== "produce") fragment.set("by", by);
  if (by === "produce") {
    const asked = loaded.totals.length > 0 ? loaded.totals : loaded.givens;
    for (const what of asked.filter(() => whether(0.8))) {
      const amount = weight(60, 12000);
      fragment.set(`.${what.name}`, amount);
      words.push(`${what.name}=${amount}`);
    }
  }
  if (by === "salt") {
    const salt = oneOf(loaded.salts).name;
    const amount = weight(5, 200);
    fragment.set("cell", salt);
    fragment.set("salt", amount);
    words.push(`${salt}=${amount}`);
  }
  const own = whether(by === "jar" ? 0.5 : 0.3);
  const have = 1 + Math.floor(next() * 3);
  if (own) {
    reader.jar = [oneOf([500, 720, 1000, 1500, 3000, 5000]), oneOf([0, 8, 9.5, 12])];
    reader.have = have;
    fragment.set("jar", reader.jar.filter(Boolean).join("x"));
    fragment.set("have", String(have));
    if (by === "jar") words.push(`jar=${new Array(have).fill("mine").join(",")}`);
  } else if (by === "jar") {
    const jar = oneOf(loaded.kitchen.jars);
    const many = Math.min(jar.have, have);
    fragment.set("jar", jar.name);
    fragment.set("have", String(many));
    words.push(`jar=${new Array(many).fill(jar.name).join(",")}`);
  }
  // In a kitchen file a scale and a jar cannot both be called mine.
  if (!own && whether(0.6)) fragment.set("step", String(reader.step = oneOf([0.1, 0.5, 1, 2, 5, 10])));
  if (whether(0.2)) fragment.set("room", String(reader.room = oneOf([15, 18.5, 22])));
  const units = oneOf(["metric", "metric", "us", "both"]);
  if (units !== "metric") fragment.set("units", units);
  const options = [];
  if (whether(0.3)) fragment.set("start", options[1] = oneOf(["2026-11-25", "2028-02-28"])), options[0] = "--start";
  const without = loaded.optional.map((one) => one.name ?? one).filter(() => whether(0.4));
  if (without.length > 0) fragment.set("without", without.join(","));
  for (const name of without) words.push("without", name);
  return { fragment: fragment.toString(), words, reader, card: ["--units", units, ...options], said: `${words.join(" ")} ${JSON.stringify(reader)} ${fragment}` };
}

/** The title and the rest of the card on the page. */
const shownCard = (tab) => tab.evaluate(() => ["c-head", "card"].map((id) => document.getElementById(id).innerHTML.trim()));

/** The same of a card from the command line. */
const printedCard = (card) => blank.evaluate((markup) => {
  const main = new DOMParser().parseFromString(markup, "text/html").querySelector("main");
  const head = main.querySelector(".head");
  head.remove();
  return [head.innerHTML.trim(), main.innerHTML.trim()];
}, card);

const figures = (tab) => tab.evaluate(() => [...document.querySelectorAll("#card .numbers tbody tr")].map((row) =>
  [row.querySelector(".name").textContent, row.querySelector(".figure").childNodes[0]?.textContent.trim() ?? ""]));

/** Every reading of the weigh-out stands on the page, with as many digits as the scale shows. */
function hasFigures(shown, weighed, said) {
  let seen = 0;
  for (const item of [...weighed.givens, ...weighed.items]) {
    const row = shown.find(([name]) => name === item.name.replaceAll("_", " "));
    if (!row || item.reading_g === null || item.portions.length > 1 || !/^[\d.]+$/.test(row[1])) continue;
    ++seen;
    // What was entered is kept to the last digit, and shown as the scale shows it.
    const off = item.entered ? item.step_g / 2 + 1e-9 : 1e-9;
    assert.ok(Math.abs(Number(row[1]) - item.reading_g) <= off, `${item.name}, ${row[1]} for ${item.reading_g}: ${said}`);
  }
  return seen;
}

let refused = 0;
let answered = 0;
let found = 0;
for (const [at, name] of book.entries()) {
  test(name, { skip }, async () => {
    const path = publish(`numbers-${name}.html`, name);
    const context = await opened(browser, `file://${path}`, { offline: true });
    const { tab } = context;
    // What the engine answers is kept aside, to be compared whole.
    await tab.addInitScript(() => {
      const parse = JSON.parse;
      JSON.parse = (text) => {
        const value = parse(text);
        if (value?.format === "jarful.page/1") globalThis.lastAnswer = value;
        if (value?.format === "jarful.page-load/1") globalThis.loaded = value;
        return value;
      };
    });
    await tab.reload();
    await tab.waitForFunction(() => document.body.classList.contains("living"));
    const loaded = await tab.evaluate(() => globalThis.loaded);
    const many = Math.floor(((at + 1) * questions) / book.length) - Math.floor((at * questions) / book.length);
    for (let i = 0; i < many; ++i) {
      const asked = question(loaded);
      await tab.evaluate((fragment) => new Promise((done) => {
        if (location.hash === (fragment && `#${fragment}`)) done();
        addEventListener("hashchange", () => setTimeout(done), { once: true });
        location.hash = fragment;
      }), asked.fragment);
      assert.equal(await tab.locator("#c-said").innerText(), "", asked.said);
      const own = kitchenOf(asked.reader);
      const weighed = run("weigh", name, ...asked.words, "--kitchen", own, "--json");
      const answer = await tab.evaluate(() => globalThis.lastAnswer);
      assert.equal(answer.status, weighed.status, asked.said);
      if (weighed.status === 2) {
        ++refused;
        const shown = await tab.locator("#card").textContent();
        for (const problem of answer.problems.filter((one) => one.severity !== "remark"))
          assert.ok(weighed.stderr.replace(/\s+/g, " ").toLowerCase().includes(problem.message.replace(/\s+/g, " ").toLowerCase()), `${weighed.stderr} ${asked.said}`);
        assert.match(shown, /^No numbers for this/);
        assert.deepEqual(await figures(tab), []);
        continue;
      }
      ++answered;
      assert.deepEqual(answer.weigh, JSON.parse(weighed.stdout), asked.said);
      const card = run("card", name, ...asked.words, "--kitchen", own, "--html", ...asked.card);
      assert.equal(card.status, weighed.status, card.stderr);
      assert.deepEqual(await shownCard(tab), await printedCard(card.stdout), asked.said);
      found += hasFigures(await figures(tab), answer.weigh, asked.said);
    }
    assert.deepEqual(context.heard, []);
    await context.close();
  });
}

test("there were answers as well as refusals", { skip }, (t) => {
  t.diagnostic(`seed ${seed}: ${answered} answers, ${refused} refusals, ${found} readings found on the page`);
  assert.equal(answered + refused, questions);
  assert.ok(answered > questions / 2 && refused > 0 && found > questions);
});
