// What the reader has said, as plain data; how it stands in the address; what it asks of the engine.
// An address comes from anybody: whatever in it is not one of a few short forms is left out.

const longestAddress = 1000;
const longestValue = 80;
const amountForm = /^[0-9½¼¾⅓⅔⅛][0-9A-Za-z½¼¾⅓⅔⅛ .,+/±-]*$/u;
const dateForm = /^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$/;
const unitChoices = ["metric", "us", "both"];
const spoonChoices = ["us", "metric", "imperial"];

/** A page that nobody has touched, in the units of its kitchen. Amounts are texts as the engine reads them, "1.84 kg". */
export function untouched(units = "metric") {
  return {
    by: "produce", // or "jar", "salt": what the batch is worked out from
    amounts: Object.create(null), // of givens, totals and measures, by name
    cell: "", // which salt, where there are several
    salt: "",
    jar: null, // { name } of the kitchen's, or { brimful_ml, across_cm }
    have: 0, // 0: as many as it takes, or as the kitchen has
    step: undefined, // grams; null: no scale; undefined: the kitchen's scales
    grain: "",
    spoons: "",
    units,
    start: "",
    room: "",
    without: [],
  };
}

/** What a page may be asked about, from the engine's answer to `load`. */
export function knownOf(loaded) {
  const named = (list) => (list ?? []).map((one) => one.name ?? one);
  return {
    amounts: [...named(loaded.givens), ...named(loaded.totals), ...named(loaded.measures)],
    salts: named(loaded.salts),
    optional: named(loaded.optional),
    jars: named(loaded.kitchen?.jars),
    grains: (loaded.salt_grains ?? []).map((grain) => grain.id),
    units: loaded.kitchen?.units,
  };
}

function within(text, low, high) {
  const value = Number(text);
  return /^\d{1,7}(\.\d{1,6})?$/.test(text) && value >= low && value <= high ? value : undefined;
}

function jarOf(text, known) {
  if (known.jars.includes(text)) return { name: text };
  const [volume, width, ...rest] = text.split("x");
  const brimful_ml = within(volume, 1, 1000000);
  const across_cm = width === undefined ? null : within(width, 0.1, 1000);
  if (rest.length > 0 || brimful_ml === undefined || across_cm === undefined) return undefined;
  return { brimful_ml, across_cm };
}

function isDay(text) {
  if (!dateForm.test(text)) return false;
  const day = new Date(`${text}T12:00:00Z`);
  return !Number.isNaN(day.getTime()) && day.toISOString().startsWith(text);
}

/** Puts one `key=value` of an address into `state`; whether it was understood. */
function take(state, key, value, known) {
  const among = (list) => list.includes(value);
  if (key.startsWith(".")) {
    const name = key.slice(1);
    if (!known.amounts.includes(name) || !amountForm.test(value)) return false;
    state.amounts[name] = value;
    return true;
  }
  const takes = {
    by: () => ["jar", "salt"].includes(value) && (state.by = value),
    cell: () => among(known.salts) && (state.cell = value),
    salt: () => amountForm.test(value) && (state.salt = value),
    jar: () => (state.jar = jarOf(value, known) ?? state.jar),
    have: () => /^[1-9]\d?$/.test(value) && (state.have = Number(value)),
    step: () => {
      const step = value === "none" ? null : within(value, 0.001, 1000);
      if (step === undefined) return false;
      state.step = step;
      return true;
    },
    grain: () => among(known.grains) && (state.grain = value),
    spoons: () => among(spoonChoices) && (state.spoons = value),
    units: () => among(unitChoices) && (state.units = value),
    start: () => isDay(value) && (state.start = value),
    room: () => within(value, 0, 50) !== undefined && (state.room = value),
    without: () => {
      const names = value.split(",");
      if (!names.every((name) => known.optional.includes(name))) return false;
      state.without = [...new Set(names)];
      return true;
    },
  };
  return Object.hasOwn(takes, key) && Boolean(takes[key]());
}

/** The state that an address's fragment stands for, and whether all of it was understood. */
export function readAddress(fragment, known) {
  const state = untouched(known.units);
  const text = fragment.replace(/^#/, "");
  if (text === "") return { state, whole: true };
  if (text.length > longestAddress) return { state, whole: false };
  let whole = true;
  for (const [key, value] of new URLSearchParams(text)) {
    const good = value.length <= longestValue && take(state, key, value, known);
    whole &&= good;
  }
  return { state, whole };
}

/** The fragment that `state` is read back from, without the #; empty for a page that is untouched in these units. */
export function writeAddress(state, units = "metric") {
  const words = new URLSearchParams();
  const put = (key, value) => value && words.append(key, value);
  if (state.by !== "produce") put("by", state.by);
  for (const [name, amount] of Object.entries(state.amounts))
    if (amountForm.test(amount)) put(`.${name}`, amount);
  put("cell", state.cell);
  if (amountForm.test(state.salt)) put("salt", state.salt);
  if (state.jar) put("jar", state.jar.name ?? [state.jar.brimful_ml, state.jar.across_cm].filter(Boolean).join("x"));
  if (state.have) put("have", String(state.have));
  if (state.step !== undefined) put("step", state.step === null ? "none" : String(state.step));
  put("grain", state.grain);
  put("spoons", state.spoons);
  if (state.units !== units) put("units", state.units);
  put("start", state.start);
  put("room", state.room);
  put("without", state.without.join(","));
  return words.toString();
}

/** An amount as the engine reads it. A keypad may have a comma and no point: "1,84" is taken for 1.84; where a
    comma could stand between thousands, it is left for the engine to ask about. */
export function amountOf(text, unit) {
  const plain = text.trim().replace(/^(\d+),(\d{1,2}|\d{4,})(?!\d)/, "$1.$2");
  return plain !== "" && /^[\d.,\s/½¼¾⅓⅔⅛]+$/u.test(plain) ? `${plain} ${unit}` : plain;
}

/** The question that `state` asks of the engine. */
export function questionOf(state, known) {
  const words = [];
  const named = state.jar?.name;
  if (state.by === "jar" && state.jar)
    words.push(`jar=${new Array(Math.max(1, state.have)).fill(named ?? "mine").join(",")}`);
  const cell = state.cell || known.salts[0];
  if (state.by === "salt" && state.salt && cell) words.push(`${cell}=${state.salt}`);
  if (state.by === "produce")
    for (const [name, amount] of Object.entries(state.amounts)) words.push(`${name}=${amount}`);

  const reader = {};
  if (state.jar) {
    const have = state.have || (state.by === "jar" ? 1 : undefined);
    reader.jar = named ? { name: named, ...(have && { have }) } : { ...state.jar, have: have ?? 99 };
  }
  if (state.step !== undefined) reader.step_g = state.step;
  if (state.spoons) reader.spoons = state.spoons;
  if (state.room !== "") reader.room_c = Number(state.room);
  return {
    do: "weigh",
    words,
    without: state.without,
    reader,
    grain: state.grain || null,
    units: state.units,
    start: state.start || null,
  };
}
