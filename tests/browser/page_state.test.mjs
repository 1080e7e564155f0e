// What a reader has said, in the address and as a question to the engine. Needs no browser and no engine.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { test } from "node:test";
import { pathToFileURL } from "node:url";

const web = join(process.env.JARFUL_SOURCE_DIR, "engine", "page", "web");
const { amountOf, knownOf, questionOf, readAddress, untouched, writeAddress } = await import(pathToFileURL(join(web, "state.mjs")));
const { fileName } = await import(pathToFileURL(join(web, "calendar.mjs")));

const known = knownOf({
  givens: [{ name: "cabbage" }, { name: "__proto__" }],
  totals: [{ name: "basket" }],
  measures: [{ name: "drained" }],
  salts: [{ name: "salt" }, { name: "bath_salt" }],
  optional: [{ name: "apple" }, "bay"],
  kitchen: { jars: [{ name: "tall" }, { name: "grey" }] },
  salt_grains: [{ id: "fine-sea-salt" }],
});
const read = (fragment) => readAddress(fragment, known);

const full = {
  by: "jar", ".cabbage": "1.84 kg", ".drained": "1580 g", cell: "bath_salt", salt: "24 g", jar: "1500x10", have: "2", step: "0.1",
  grain: "fine-sea-salt", spoons: "metric", units: "us", start: "2028-02-29", room: "19.5", without: "apple,bay",
};

test("an address is read, and written as it was", () => {
  const fragment = new URLSearchParams(full).toString();
  const { state, whole } = read(`#${fragment}`);
  assert.ok(whole);
  assert.equal(state.amounts.cabbage, "1.84 kg");
  assert.deepEqual(state.jar, { brimful_ml: 1500, across_cm: 10 });
  assert.deepEqual([state.have, state.step, state.room], [2, 0.1, "19.5"]);
  assert.equal(writeAddress(state), fragment);
});

test("every subset of what can be said comes back from its address", () => {
  const keys = Object.keys(full);
  for (let i = 0; i < 1 << keys.length; i += 37) {
    const words = new URLSearchParams(keys.filter((_, bit) => (i >> bit) & 1).map((key) => [key, full[key]]));
    const first = read(words.toString());
    assert.ok(first.whole, words.toString());
    assert.deepEqual(read(writeAddress(first.state)).state, first.state);
    assert.equal(writeAddress(first.state), words.toString());
  }
});

test("an untouched page has no address of its own", () => {
  assert.equal(writeAddress(untouched()), "");
  assert.deepEqual(read(""), { state: untouched(), whole: true });
  assert.deepEqual(read("#"), { state: untouched(), whole: true });
});

test("no scale is another thing than a scale that is not named", () => {
  assert.equal(read("step=none").state.step, null);
  assert.equal(questionOf(read("step=none").state, known).reader.step_g, null);
  assert.ok(!("step_g" in questionOf(untouched(), known).reader));
});

const refused = [
  "by=produce", "by=everything", ".cabbage=<img src=x onerror=alert(1)>", ".cabbage=-1kg", ".cabbage=", ".pepper=3g", ".constructor=1g",
  "cell=pepper", "salt=salt", "salt=javascript:alert(1)", "jar=1500x10x2", "jar=0x10", "jar=1500x", "jar=x", "jar=wide", "jar=1e9", "jar=-5",
  "have=0", "have=100", "have=2.5", "step=0", "step=-1", "step=NaN", "step=1e-9", "step=5000", "grain=sugar", "spoons=soup", "units=metric ",
  "start=2026-02-30", "start=2026-13-01", "start=tomorrow", "room=hot", "room=400", "without=salt", "without=apple,", "toString=1", "__proto__=1",
  "hasOwnProperty=1", "state=1", "do=appraise", `.cabbage=${"1".repeat(90)}g`, `salt=1 g&${"x".repeat(1200)}`, "%", "&&&=&=%00", "script",
];
for (const fragment of refused) {
  test(`left out, and said so: ${fragment.slice(0, 50)}`, () => {
    const { state, whole } = read(fragment);
    assert.equal(whole, false);
    if (!fragment.startsWith("salt=1 g&")) assert.deepEqual(state, untouched());
  });
}

test("one bad word of an address does not spoil the others", () => {
  const { state, whole } = read("units=us&by=magic&salt=24g");
  assert.equal(whole, false);
  assert.deepEqual([state.units, state.by, state.salt], ["us", "produce", "24g"]);
});

test("a name that means something to the language of the page is a name like any other", () => {
  const { state, whole } = read(".__proto__=3g");
  assert.ok(whole);
  assert.equal(Object.getPrototypeOf(state.amounts), null);
  assert.deepEqual(questionOf(state, known).words, ["__proto__=3g"]);
  assert.equal({}.polluted, undefined);
});

/** A generator of our own: the same numbers on every run. */
function random(seed) {
  return () => {
    seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
    return seed / 2 ** 32;
  };
}

test("whatever an address says, what is read of it is short, and reads back as itself", () => {
  const next = random(7);
  const pieces = [...Object.entries(full).flat(), "=", "&", "#", "%", "+", "x", "<", "\"", "'", "\u05d0", "\u0000", "none", "kg", "1", ",", "."];
  for (let i = 0; i < 5000; ++i) {
    let fragment = "";
    const length = 1 + Math.floor(next() * 12);
    for (let n = 0; n < length; ++n) fragment += pieces[Math.floor(next() * pieces.length)];
    const { state } = read(fragment);
    for (const word of questionOf(state, known).words) assert.match(word, /^(cabbage|__proto__|basket|drained|salt|bath_salt|jar)=[^<>"'&]{1,500}$/);
    assert.deepEqual(read(writeAddress(state)).state, state, fragment);
  }
});

test("a number gets the unit beside it, a text with a unit keeps its own", () => {
  assert.equal(amountOf(" 1.84 ", "kg"), "1.84 kg");
  assert.equal(amountOf("1840", "g"), "1840 g");
  assert.equal(amountOf("4 lb 1 oz", "kg"), "4 lb 1 oz");
  assert.equal(amountOf("1 1/2", "lb"), "1 1/2 lb");
  assert.equal(amountOf("½", "kg"), "½ kg");
  assert.equal(amountOf("4.2kg+3.9kg", "g"), "4.2kg+3.9kg");
  assert.equal(amountOf("", "g"), "");
});

test("a keypad's comma is a point, unless it could stand between thousands", () => {
  assert.equal(amountOf("1,84", "kg"), "1.84 kg");
  assert.equal(amountOf("1,8", "kg"), "1.8 kg");
  assert.equal(amountOf("0,1234", "kg"), "0.1234 kg");
  assert.equal(amountOf("1,840", "g"), "1,840 g");
  assert.equal(amountOf("1,84 kg", "g"), "1.84 kg");
});

test("what the batch is worked out from is all that is asked", () => {
  const state = untouched();
  Object.assign(state.amounts, { cabbage: "1.84 kg" });
  Object.assign(state, { salt: "24 g", jar: { name: "tall" }, have: 2 });
  assert.deepEqual(questionOf(state, known).words, ["cabbage=1.84 kg"]);
  assert.deepEqual(questionOf(state, known).reader.jar, { name: "tall", have: 2 });
  state.by = "salt";
  assert.deepEqual(questionOf(state, known).words, ["salt=24 g"]);
  state.by = "jar";
  assert.deepEqual(questionOf(state, known).words, ["jar=tall,tall"]);
  state.jar = { brimful_ml: 1500, across_cm: 10 };
  state.have = 0;
  assert.deepEqual(questionOf(state, known).words, ["jar=mine"]);
  assert.deepEqual(questionOf(state, known).reader.jar, { brimful_ml: 1500, across_cm: 10, have: 1 });
});

test("a calendar's file has a name that every system takes", () => {
  assert.equal(fileName("Quay Street winter kraut"), "Quay-Street-winter-kraut.ics");
  assert.equal(fileName("../../etc/passwd\u0000"), "etc-passwd.ics");
  assert.equal(fileName("</script>"), "script.ics");
  assert.equal(fileName("///"), "batch.ics");
  assert.ok(fileName("x".repeat(500)).length < 70);
});

test("the modules are one script when they are joined, with every name once", (t) => {
  const folder = mkdtempSync(join(tmpdir(), "jarful-page-"));
  t.after(() => rmSync(folder, { recursive: true }));
  const order = readFileSync(join(web, "order.txt"), "utf8").trim().split("\n");
  const lines = order.flatMap((name) => readFileSync(join(web, name), "utf8").split("\n"));
  for (const line of lines.filter((one) => /^(import|export)\b/.test(one)))
    assert.match(line, /^(import \{ [^}]+ \} from "\.\/\w+\.mjs";|export (async )?(function|const|class) \w+.*)$/);
  const joined = join(folder, "page.mjs");
  writeFileSync(joined, lines.filter((line) => !line.startsWith("import ")).map((line) => line.replace(/^export /, "")).join("\n"));
  execFileSync(process.execPath, ["--check", joined]);
});
