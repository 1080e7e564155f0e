// The engine in WebAssembly and the native one give the same bytes: every recipe of the demo book, many questions
// of every sort, chosen by a seed that is printed (JARFUL_SEED sets it, JARFUL_QUESTIONS how many).
import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { test } from "node:test";
import { gunzipSync } from "node:zlib";

const source = process.env.JARFUL_SOURCE_DIR;
const { makeEngine } = await import(join(source, "engine/page/wasm/loader.mjs"));
const engineFile = process.env.JARFUL_PAGE_ENGINE;
const seed = Number(process.env.JARFUL_SEED ?? Date.now() % 2 ** 31);
const count = Number(process.env.JARFUL_QUESTIONS ?? 400);

// mulberry32: a small generator that is good enough for choosing.
let state = seed >>> 0;
function random() {
  state = (state + 0x6d2b79f5) >>> 0;
  let t = state;
  t = Math.imul(t ^ (t >>> 15), t | 1);
  t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
  return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
}
const below = (n) => Math.floor(random() * n);
const one = (list) => list[below(list.length)];
const perhaps = (chance, make) => (random() < chance ? make() : undefined);

const book = join(source, "recipes");
const read = (name) => readFileSync(join(book, `${name}.jarful`), "utf8");
const names = readdirSync(book)
  .filter((file) => file.endsWith(".jarful") && file !== "kitchen.jarful")
  .map((file) => file.slice(0, -".jarful".length));
const bases = names.map((name) => ({ name, text: read(name) }));

const amount = (grams) =>
  one([`${(grams * (0.2 + 3 * random())).toFixed(below(3))}g`, `${(grams * (0.0005 + 0.003 * random())).toFixed(3)}kg`,
    `${(grams / 453.6 * (0.5 + random())).toFixed(2)}lb`, `${Math.ceil(grams / 500)} lb ${below(16)} oz`,
    `${Math.ceil(grams / 2)}g+${Math.ceil(grams / 3)}g`, `${grams}`, "1,5kg", "-3g", "1e9kg", "0g", ""]);

function weighing(loaded) {
  const settable = [...loaded.givens, ...loaded.totals];
  const words = [];
  for (const given of settable) if (random() < 0.6) words.push(`${given.name}=${amount(given.grams)}`);
  if (loaded.salts.length && random() < 0.15) words.splice(0, words.length, `${one(loaded.salts).name}=${1 + below(90)}g`);
  if (random() < 0.15) words.splice(0, words.length, `jar=${one(["mine", "tall", "squat,tall", "grey", "none"])}`);
  if (random() < 0.05) words.push(one(["cabage=1kg", "=", "x", "fill=1.2L", "bay=3"]));
  for (const measure of loaded.measures) if (random() < 0.4) words.push(`${measure.name}=${100 + below(2000)}g`);
  return {
    do: "weigh",
    words,
    without: loaded.optional.filter(() => random() < 0.3),
    poured: perhaps(0.1, () => loaded.salts.map((salt) => `${salt.name}=${20 + below(60)}g`)),
    reader: perhaps(0.7, () => ({
      step_g: one([undefined, null, 0.1, 1, 2, 5, 10]),
      jar: perhaps(0.5, () =>
        one([{ brimful_ml: one([250, 500, 946.35, 1000, 1500, 3000]), across_cm: one([null, 7.5, 8.6, 10, 12.25]), have: 1 + below(6) },
          { name: one(["tall", "squat", "grey", "none"]), have: 1 + below(4) }])),
      spoons: one(["us", "metric", "imperial", undefined]),
      room_c: perhaps(0.4, () => below(35)),
    })),
    grain: one([null, null, "salt-table", "salt-kosher-light", "salt-sea-coarse", "no-salt"]),
    units: one(["metric", "us", "both"]),
    start: perhaps(0.4, () => `${2020 + below(20)}-${String(1 + below(12)).padStart(2, "0")}-${String(1 + below(28)).padStart(2, "0")}`),
    made: perhaps(0.2, () => 1600000000 + below(10 ** 8)),
  };
}

const things = ["cabbage", "medium head cabbage", "carrots", "sea salt", "kosher salt", "water", "garlic cloves", "dill", "cucumbers", "bay leaf", "vinegar"];
function appraising() {
  const line = () => `${one(["1", "2 1/2", "½", "3-4", "500", "1.5", "a few"])} ${one(["g", "kg", "tbsp", "tsp", "cups", "lb", "quart", ""])} ${one(things)}`;
  return { do: "appraise", text: Array.from({ length: 1 + below(6) }, line).join("\n"), kind: one([null, "kraut", "green-beans in-brine", "porridge"]), units: one(["metric", "us", "both"]) };
}

test(`${count} questions by seed ${seed} get the same bytes`, async () => {
  const engine = await makeEngine(gunzipSync(readFileSync(engineFile)));
  const lines = [];
  const answers = [];
  const ask = (door, question) => {
    lines.push(`${door} ${JSON.stringify(question)}`);
    const text = door === "load" ? engine.loadText(question) : engine.answerText(question);
    answers.push(text);
    return JSON.parse(text);
  };
  const statuses = [0, 0, 0];
  for (const name of names) {
    const kitchen = random() < 0.8 ? read("kitchen") : null;
    const loaded = ask("load", { recipe: read(name), kitchen, house: null, bases });
    assert.ok(loaded.ok || kitchen === null, name);
    if (!loaded.ok) continue;
    for (let i = 0; i < count / names.length; ++i) ++statuses[ask("answer", random() < 0.9 ? weighing(loaded) : appraising()).status];
  }
  const native = spawnSync(process.env.JARFUL_NATIVE_ANSWERS, { input: `${lines.join("\n")}\n`, maxBuffer: 2 ** 30 });
  assert.equal(native.status, 0, String(native.stderr));
  let at = 0;
  for (let i = 0; i < lines.length; ++i) {
    const end = native.stdout.indexOf(10, at);
    const bytes = Number(native.stdout.subarray(at, end));
    const text = native.stdout.subarray(end + 1, end + 1 + bytes).toString();
    at = end + 1 + bytes;
    if (text !== answers[i]) {
      const from = [...text].findIndex((c, k) => c !== answers[i][k]);
      assert.fail(`${lines[i]}\nnative: …${text.slice(Math.max(0, from - 60), from + 60)}…\nwasm:   …${answers[i].slice(Math.max(0, from - 60), from + 60)}…`);
    }
  }
  assert.equal(at, native.stdout.length);
  // Whatever was chosen, there were answers of all three sorts among them.
  for (const status of [0, 1, 2]) assert.ok(statuses[status] > count / 100, `status ${status}: ${statuses[status]} times`);
});
