// Starts the engine, and asks it again whenever the reader changes something.
import { knownOf, questionOf, readAddress, untouched, writeAddress } from "./state.mjs";
import { byId, element, makeControls, readControls, setControls } from "./controls.mjs";
import { placeCard, showAnswer, workerAddress } from "./answer.mjs";
import { makeCounter, setSteps } from "./counter.mjs";
import { saveCalendar, setCalendar } from "./calendar.mjs";
import { makeAppraise } from "./appraise.mjs";
import { fitPaper } from "./paper.mjs";
import { makeEngine } from "./engine.mjs";

/** The engine is written into a page by letters that mean nothing in HTML, five for each four bytes. */
const digits = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz!#%()*+,-./:;=?@[]^_{|}";

function bytesOf(letters) {
  const values = new Uint8Array(128);
  for (let i = 0; i < digits.length; ++i) values[digits.charCodeAt(i)] = i;
  const bytes = new Uint8Array(Math.floor(letters.length * 4 / 5));
  for (let from = 0, to = 0; from < letters.length; from += 5) {
    let group = 0;
    for (let i = from; i < from + 5; ++i) group = group * 85 + (i < letters.length ? values[letters.charCodeAt(i)] : 84);
    for (let shift = 24; shift >= 0 && to < bytes.length; shift -= 8) bytes[to++] = group >>> shift;
  }
  return bytes;
}

async function fetched(address) {
  const file = await fetch(address);
  if (!file.ok) throw new Error(`the engine could not be fetched, ${file.status}`);
  return new Uint8Array(await file.arrayBuffer());
}

/** The engine: inside the page, or a file beside it; packed with gzip, unless a host has unpacked it. */
async function engineBytes() {
  const inside = byId("page-engine");
  const bytes = inside ? bytesOf(inside.textContent.trim()) : await fetched(document.querySelector("meta[name=jarful-engine]").content);
  if (bytes[0] !== 0x1f || bytes[1] !== 0x8b) return bytes;
  const unpacked = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("gzip"));
  return new Uint8Array(await new Response(unpacked).arrayBuffer());
}

/** What a page may still need when it asks of itself what the reader has not said yet. */
function unsaid(state) {
  if (state.by === "salt" && state.salt === "") return { message: "How much salt is left?", advice: "Weigh it, and type what the scale shows." };
  if (state.jar && !state.jar.name && !(state.jar.brimful_ml > 0))
    return { message: "How much does the jar hold?", advice: "Weigh the water that it holds up to the rim: 1 g is 1 mL." };
  return null;
}

/** Without a scale the spoons come first, and what is to be said of them. */
function spoonSteps(answer) {
  if (!answer.spoons?.length) return [];
  const words = answer.spoons.flatMap((one) => [one.text && `${one.name.replaceAll("_", " ")}: ${one.text}`, one.warning]);
  return [{ title: "By the spoon", words: words.filter(Boolean) }];
}

class Page {
  constructor(engine, loaded) {
    this.engine = engine;
    this.loaded = loaded;
    this.known = knownOf(loaded);
    this.state = untouched(this.known.units);
    this.sure = false;
  }

  /** Takes the state from the address, and says so if there is something in it that is not understood. */
  fromAddress() {
    const { state, whole } = readAddress(location.hash, this.known);
    this.state = state;
    this.sure = false;
    setControls(state, this.loaded);
    this.ask();
    if (!whole) this.say("Part of the link was not understood and is left out.");
  }

  ask() {
    performance.mark("jarful-asked");
    const question = questionOf(this.state, this.known);
    const missing = unsaid(this.state);
    const answer = missing ? { problems: [missing] } : this.engine.answer({ ...question, yes: this.sure, made: Math.floor(Date.now() / 1000) });
    showAnswer(answer);
    setSteps(answer.weigh ? [...spoonSteps(answer), ...(answer.counter ?? [])] : []);
    setCalendar((answer.weigh && answer.calendar) || null, this.loaded.recipe.title, byId("c-calendar"));
    // The address that may stand on the printed card is that of the batch as it was published.
    document.body.classList.toggle("changed", writeAddress(this.state, this.known.units) !== "");
    performance.measure("jarful-update", "jarful-asked");
  }

  /** Not on every stroke: browsers count how often an address is changed. */
  toAddress() {
    clearTimeout(this.waiting);
    this.waiting = setTimeout(() => {
      const fragment = writeAddress(this.state, this.known.units);
      if (fragment !== location.hash.slice(1)) history.replaceState(null, "", `${location.pathname}${location.search}${fragment && `#${fragment}`}`);
    }, 400);
  }

  /** What was doubted is so, until something else is said. */
  yes() {
    this.sure = true;
    this.ask();
  }

  changed(target) {
    this.sure = false;
    readControls(this.state, target, this.loaded);
    this.say("");
    this.ask();
    this.toAddress();
  }

  say(words) {
    byId("c-said").textContent = words;
    byId("c-link-ask").hidden = true;
  }

  async copyLink() {
    const fragment = writeAddress(this.state, this.known.units);
    const link = `${location.href.split("#")[0]}${fragment && `#${fragment}`}`;
    try {
      await navigator.clipboard.writeText(link);
      this.say("Copied: whoever opens it sees this batch.");
    } catch {
      this.say("Copy it from here:");
      byId("c-link-ask").hidden = false;
      byId("c-link").value = link;
      byId("c-link").select();
    }
  }

  again() {
    this.sure = false;
    this.state = untouched(this.known.units);
    setControls(this.state, this.loaded);
    this.say("");
    this.ask();
    this.toAddress();
  }

  listen() {
    const tray = byId("controls");
    tray.addEventListener("input", (event) => { if (event.target.id !== "c-link") this.changed(event.target); });
    tray.addEventListener("focusin", (event) => { if (event.target.matches("input[type=text]")) event.target.select(); });
    // Not by the address, which is the batch's.
    byId("c-skip").addEventListener("click", (event) => {
      event.preventDefault();
      byId("card").scrollIntoView();
      byId("card").focus();
    });
    byId("c-copy").addEventListener("click", () => this.copyLink());
    byId("c-calendar").addEventListener("click", saveCalendar);
    byId("c-print").addEventListener("click", () => print());
    byId("c-again").addEventListener("click", () => this.again());
    byId("card").addEventListener("click", (event) => event.target.id === "c-yes" && this.yes());
    byId("c-today").addEventListener("click", () => {
      const now = new Date();
      const two = (value) => String(value).padStart(2, "0");
      byId("c-start").value = `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
      this.changed(byId("c-start"));
    });
    addEventListener("hashchange", () => this.fromAddress());
    addEventListener("beforeprint", fitPaper);
  }
}

/** The static card becomes a living one: its title above, the controls next, the numbers below or beside. */
function enliven(page) {
  const head = element("header", "", { id: "c-head", class: "page-head" });
  byId("controls").before(head);
  document.body.prepend(byId("c-skip"));
  const card = document.createDocumentFragment();
  card.append(...byId("card").childNodes);
  placeCard(card);
  byId("card").before(byId("spoons"));
  byId("card").tabIndex = -1;
  byId("c-more").open = matchMedia("(min-width: 62rem)").matches;
  for (const id of ["controls", "c-skip"]) byId(id).hidden = false;
  document.body.classList.add("living");
  makeControls(page.loaded);
  makeCounter();
  page.listen();
  page.fromAddress();
  makeAppraise(page.engine, page.loaded, () => page.state.units);
}

function registerWorker() {
  const worker = document.querySelector("meta[name=jarful-worker]")?.content;
  if (worker && location.protocol.startsWith("http")) navigator.serviceWorker?.register(workerAddress(worker)).catch(() => {});
}

async function start() {
  registerWorker();
  if (!byId("page-load")) return;
  try {
    const engine = await makeEngine(await engineBytes());
    const loaded = engine.load(JSON.parse(byId("page-load").textContent));
    if (!loaded.ok) throw new Error("the recipe was not taken");
    enliven(new Page(engine, loaded));
    performance.mark("jarful-ready");
  } catch (error) {
    const words = "This browser cannot work the page out for another batch; the card is for the recipe's own.";
    byId("card").before(element("p", `${words} (${String(error.message).slice(0, 200)})`, { class: "page-note", role: "status" }));
  }
}

start();
