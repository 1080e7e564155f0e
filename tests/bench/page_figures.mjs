// What the engine of a page costs in node: page_figures.mjs ENGINE.wasm.gz RECIPE.jarful KITCHEN.jarful LOADER.mjs QUESTION ROUNDS.
// Prints one line of JSON: milliseconds for its start, for the first question, and the median of the later half of ROUNDS.
import { readFileSync } from "node:fs";
import { gunzipSync } from "node:zlib";

const [engineFile, recipe, kitchen, loader, question, rounds] = process.argv.slice(2);
const { makeEngine } = await import(loader);
const bytes = gunzipSync(readFileSync(engineFile));
const processor = () => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};

const begun = performance.now();
const engine = await makeEngine(bytes);
const start = performance.now() - begun;
const loaded = engine.load({ recipe: readFileSync(recipe, "utf8"), kitchen: readFileSync(kitchen, "utf8"), house: null, bases: [] });
if (!loaded.ok) throw new Error("the recipe was not taken");
const times = [];
for (let i = 0; i < Number(rounds); ++i) {
  const from = processor();
  const answer = engine.answer(JSON.parse(question));
  times.push(processor() - from);
  if (answer.status !== 0) throw new Error(`status ${answer.status}`);
}
const later = times.slice(times.length / 2).sort((a, b) => a - b);
console.log(JSON.stringify({ start_ms: start, first_ms: times[0], later_ms: later[Math.floor(later.length / 2)], bytes: bytes.length }));
