// The controls: made for what the recipe asks, read into the state, and set from it. Words of a recipe get in as
// text only.
import { amountOf } from "./state.mjs";

const litre = 1000;
/** Common sizes by what they hold, in mL. */
const sizes = [250, 500, 750, 1000, 1500, 2000, 3000, 5000, 10000];
/** What kitchen scales show, in g. */
const scaleSteps = [0.1, 0.5, 1, 2, 5, 10];
const gramsOf = { g: 1, kg: 1000, oz: 28.349523125, lb: 453.59237 };

export const byId = (id) => document.getElementById(id);

/** A sentence of the engine's, which has between backticks what somebody typed. */
export function sentence(name, words, attributes = {}) {
  const quoted = words.replace(/`([^`]*)`/g, "\u201c$1\u201d");
  return element(name, quoted.charAt(0).toUpperCase() + quoted.slice(1), { dir: "auto", ...attributes });
}

/** An element with words in it. */
export function element(name, words = "", attributes = {}) {
  const made = document.createElement(name);
  made.textContent = words;
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  return made;
}

function option(value, words) {
  return element("option", words, { value });
}

const tidy = (value, digits) => String(Number(value.toFixed(digits)));

/** Grams as a cook would write them: the number and its unit. */
function written(grams, units) {
  if (units === "us") return grams >= gramsOf.lb ? [tidy(grams / gramsOf.lb, 2), "lb"] : [tidy(grams / gramsOf.oz, 1), "oz"];
  return grams >= 1000 ? [tidy(grams / 1000, 3), "kg"] : [tidy(grams, 1), "g"];
}

/** "1.84 kg" as a number and a unit; the unit is empty where the text is of another form. */
function parted(amount) {
  const found = /^([\d.,\s/½¼¾⅓⅔⅛]+?) ?(kg|g|lb|oz)$/u.exec(amount);
  return found ? [found[1], found[2]] : [amount, ""];
}

function amountField(what, hint) {
  const box = element("div", "", { class: "ask" });
  const id = `c-amount-${what.name}`;
  const label = element("label", what.name.replaceAll("_", " "), { for: id, dir: "auto" });
  const row = element("div", "", { class: "weight" });
  const input = element("input", "", {
    id, type: "text", inputmode: "decimal", maxlength: "60", enterkeyhint: "done", autocomplete: "off", "data-name": what.name, dir: "auto",
  });
  const unit = element("select", "", { "aria-label": `Unit of ${what.name}`, "data-unit": what.name });
  for (const one of Object.keys(gramsOf)) unit.append(option(one, one));
  row.append(input, unit);
  box.append(label, row);
  const notes = [what.label, hint].filter(Boolean);
  if (notes.length > 0) box.append(element("p", notes.join("; "), { id: `${id}-note`, class: "note", dir: "auto" }));
  input.setAttribute("aria-describedby", notes.length > 0 ? `${id}-note c-fault` : "c-fault");
  return box;
}

/** Fills the controls with what `loaded`, the engine's answer to `load`, says of the recipe. */
export function makeControls(loaded) {
  const produce = byId("c-produce");
  for (const what of [...loaded.totals, ...loaded.givens]) produce.append(amountField(what));
  for (const what of loaded.measures ?? []) produce.append(amountField(what, "weighed later; empty until then"));
  const salts = loaded.salts ?? [];
  for (const salt of salts) byId("c-cell").append(option(salt.name, salt.label ? `${salt.name}, ${salt.label}` : salt.name));
  byId("c-cell-ask").hidden = salts.length < 2;
  document.querySelector("input[name=by][value=salt]").closest("label").hidden = salts.length === 0;

  const which = byId("c-jar-which");
  const jars = loaded.kitchen?.jars ?? [];
  which.append(option("", jars.length > 0 ? "whichever of the recipe's kitchen fit" : "none named"));
  for (const jar of jars) which.append(option(`=${jar.name}`, `${jar.name}, ${tidy(jar.brimful_ml / litre, 2)} L`));
  for (const size of sizes) which.append(option(String(size), `mine, ${size / litre} L`));
  which.append(option("own", "mine, another size"));

  const scales = loaded.kitchen?.scales ?? [];
  byId("c-step").append(option("", scales.length > 0 ? "as in the recipe's kitchen" : "1 g"));
  for (const step of scaleSteps) byId("c-step").append(option(String(step), `steps of ${step} g`));
  byId("c-step").append(option("none", "no scale, only spoons"));
  byId("c-grain").append(option("", "as the recipe says"));
  for (const grain of loaded.salt_grains ?? []) byId("c-grain").append(option(grain.id, grain.name));

  const optional = loaded.optional ?? [];
  byId("c-without").hidden = optional.length === 0;
  for (const what of optional) {
    const name = what.name ?? what;
    const label = element("label", "", { dir: "auto" });
    label.append(element("input", "", { type: "checkbox", "data-optional": name }), element("span", name.replaceAll("_", " ")));
    byId("c-without-list").append(label);
  }
}

/** What belongs together is shown together; the jar stands on top if the batch is worked out from it. */
function arrange(state) {
  byId("c-produce").hidden = state.by !== "produce";
  byId("c-salt").hidden = state.by !== "salt";
  const jar = byId("c-jar");
  const place = state.by === "jar" ? byId("c-jar-place") : document.querySelector("#c-more .more");
  if (jar.parentNode !== place) place.prepend(jar);
  byId("c-jar-own").hidden = state.jar === null;
  for (const id of ["c-brimful", "c-across"]) byId(id).closest(".ask").hidden = Boolean(state.jar?.name);
  byId("c-brimful-note").hidden = Boolean(state.jar?.name);
  byId("c-have").placeholder = state.by === "jar" ? "1" : state.jar?.name ? "all of them" : "as many as it takes";
  byId("c-grain-ask").hidden = byId("c-spoons-ask").hidden = state.step !== null;
}

/** Sets every control to what `state` says. */
export function setControls(state, loaded) {
  for (const radio of document.querySelectorAll("input[name=by]")) radio.checked = radio.value === state.by;
  for (const radio of document.querySelectorAll("input[name=units]")) radio.checked = radio.value === state.units;
  showAmounts(state, loaded);
  const [salt, unit] = parted(state.salt);
  byId("c-salt-amount").value = salt;
  if (unit && unit !== "lb") byId("c-salt-unit").value = unit;
  byId("c-cell").value = state.cell || (loaded.salts?.[0]?.name ?? "");
  const jar = state.jar;
  const size = jar?.brimful_ml;
  byId("c-jar-which").value = !jar ? "" : jar.name ? `=${jar.name}` : sizes.includes(size) ? String(size) : "own";
  byId("c-brimful").value = size ?? "";
  byId("c-brimful-unit").value = byId("c-across-unit").value = "1";
  byId("c-across").value = jar?.across_cm ?? "";
  byId("c-have").value = state.have || "";
  const step = state.step === undefined ? "" : state.step === null ? "none" : String(state.step);
  if (![...byId("c-step").options].some((one) => one.value === step)) byId("c-step").append(option(step, `steps of ${step} g`));
  byId("c-step").value = step;
  byId("c-grain").value = state.grain;
  byId("c-spoons").value = state.spoons;
  byId("c-start").value = state.start;
  byId("c-room").value = state.room;
  byId("c-room-unit").value = "C";
  for (const tick of document.querySelectorAll("[data-optional]")) tick.checked = !state.without.includes(tick.dataset.optional);
  arrange(state);
}

/** What the reader has not set stands there as the recipe has it, in the reader's units. */
function showAmounts(state, loaded) {
  for (const what of [...loaded.totals, ...loaded.givens, ...(loaded.measures ?? [])]) {
    const input = byId(`c-amount-${what.name}`);
    const unit = input.nextElementSibling;
    const amount = state.amounts[what.name];
    const [own, ownUnit] = what.grams > 0 ? written(what.grams, state.units) : ["", ""];
    const [text, itsUnit] = amount === undefined ? [own, ownUnit] : parted(amount);
    input.placeholder = own;
    input.value = text;
    if (itsUnit) unit.value = itsUnit;
  }
}

const number = (text) => Number(text.trim().replace(",", "."));

function readJar(state, target) {
  const which = byId("c-jar-which").value;
  if (target === byId("c-jar-which")) {
    state.have = 0;
    byId("c-have").value = "";
    if (/^\d+$/.test(which)) [byId("c-brimful").value, byId("c-brimful-unit").value] = [which, "1"];
    if (which === "own" && !byId("c-brimful").value) byId("c-brimful").value = "1000";
  } else if (target === byId("c-brimful") || target === byId("c-brimful-unit")) {
    byId("c-jar-which").value = "own";
  }
  if (which === "") return null;
  if (which.startsWith("=")) return { name: which.slice(1) };
  const brimful = number(byId("c-brimful").value) * Number(byId("c-brimful-unit").value);
  const across = number(byId("c-across").value) * Number(byId("c-across-unit").value);
  const round = (value) => Number(value.toFixed(3));
  return { brimful_ml: round(brimful) || 0, across_cm: across > 0 ? round(across) : null };
}

/** Takes into `state` what the reader has just changed in `target`. */
export function readControls(state, target, loaded) {
  const name = target.dataset.name ?? target.dataset.unit;
  const value = target.value;
  if (name !== undefined) {
    const input = byId(`c-amount-${name}`);
    if (input.value.trim() === "") delete state.amounts[name];
    else state.amounts[name] = amountOf(input.value, input.nextElementSibling.value);
  } else if (target.dataset.optional !== undefined) {
    state.without = [...document.querySelectorAll("[data-optional]")].filter((tick) => !tick.checked).map((tick) => tick.dataset.optional);
  } else if (target.name === "by" || target.name === "units") {
    state[target.name] = value;
    if (target.name === "units") showAmounts(state, loaded);
    if (state.by === "jar" && !state.jar) byId("c-jar-which").value = loaded.kitchen?.jars?.length ? `=${loaded.kitchen.jars[0].name}` : "1000";
    if (state.by === "jar" && !state.jar) state.jar = readJar(state, byId("c-jar-which"));
  } else if (target.closest("#c-jar")) {
    state.jar = readJar(state, target);
    state.have = Math.min(99, Math.max(0, Math.floor(Number(byId("c-have").value)))) || 0;
  } else if (target.id === "c-salt-amount" || target.id === "c-salt-unit") {
    state.salt = amountOf(byId("c-salt-amount").value, byId("c-salt-unit").value);
  } else if (target.id === "c-step") {
    state.step = value === "" ? undefined : value === "none" ? null : Number(value);
  } else if (target.id === "c-room" || target.id === "c-room-unit") {
    const degrees = number(byId("c-room").value);
    const celsius = byId("c-room-unit").value === "F" ? (degrees - 32) / 1.8 : degrees;
    state.room = byId("c-room").value.trim() !== "" && celsius >= 0 && celsius <= 50 ? tidy(celsius, 1) : "";
  } else {
    const plain = { "c-cell": "cell", "c-grain": "grain", "c-spoons": "spoons", "c-start": "start" }[target.id];
    if (plain) state[plain] = value;
  }
  arrange(state);
}
