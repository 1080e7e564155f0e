// What the engine answered, put on the page. The engine's card is the only markup that ever gets in, by one door.
import { byId, element, sentence } from "./controls.mjs";

/** Marks as markup what the engine wrote, which is escaped by construction; nothing else goes through here. */
const door = globalThis.trustedTypes?.createPolicy("jarful", { createHTML: (text) => text, createScriptURL: (text) => text }) ?? {
  createHTML: (text) => text,
  createScriptURL: (text) => text,
};

/** The engine's markup as nodes, not yet in the document. */
export function nodesOf(markup) {
  const template = document.createElement("template");
  template.innerHTML = door.createHTML(markup);
  return template.content;
}

/** The address of the page's own service worker. */
export const workerAddress = (path) => door.createScriptURL(path);

/** The card's title goes above the controls, the rest below or beside them. */
export function placeCard(nodes) {
  const head = nodes.querySelector(".head");
  if (head) {
    const place = byId("c-head");
    const old = place.querySelector("h1");
    if (old?.textContent === head.querySelector("h1")?.textContent) head.querySelector("h1").replaceWith(old);
    place.replaceChildren(...head.childNodes);
    place.classList.remove("stale");
    head.remove();
  }
  byId("card").replaceChildren(nodes);
}

function showRefusal(problems) {
  const box = element("section", "", { class: "stop", "aria-labelledby": "c-no-title" });
  box.append(element("h2", "No numbers for this", { id: "c-no-title" }));
  for (const problem of problems) {
    box.append(sentence("p", problem.message, { class: "headline" }));
    if (problem.advice) box.append(sentence("p", problem.advice));
  }
  if (problems.some((problem) => problem.code === "measured-unlikely")) box.append(element("button", "It is so", { id: "c-yes", type: "button" }));
  byId("card").replaceChildren(box);
}

/** Marks the fields that the problems are about. */
function markFields(problems) {
  const wrong = new Set(problems.filter((one) => one.text).map((one) => one.text.split("=")[0]));
  for (const input of document.querySelectorAll("#controls input[type=text]")) {
    const name = input.dataset.name ?? (input.id === "c-salt-amount" ? byId("c-cell").value : undefined);
    if (name !== undefined && wrong.has(name)) input.setAttribute("aria-invalid", "true");
    else input.removeAttribute("aria-invalid");
  }
}

/** The salt that goes in the jar as the card has it, found by its name; without a scale as so many spoons. */
function saltFigure(answer, spoon) {
  const salt = saltOf(answer);
  if (!salt) return "";
  if (spoon?.text) return `${spoon.text} ${spoon.name.replaceAll("_", " ")}`;
  for (const row of document.querySelectorAll("#card .numbers tbody tr"))
    if (row.querySelector(".name")?.textContent === salt.name.replaceAll("_", " "))
      return `${row.querySelector(".figure").textContent} ${salt.name.replaceAll("_", " ")}`;
  return "";
}

const saltOf = (answer) => answer.weigh?.items.find((item) => item.role === "salt" && item.fate === "in_jar");

function showVerdict(answer) {
  const stops = [...document.querySelectorAll("#card .stop p")].map((one) => one.textContent);
  const headline = document.querySelector("#card .salt .headline")?.textContent ?? "";
  const box = byId("c-verdict");
  const spoon = answer.spoons?.find((one) => one.name === saltOf(answer)?.name);
  const figure = saltFigure(answer, spoon);
  box.replaceChildren();
  if (figure) box.append(element("p", figure, { class: "verdict-figure", dir: "auto" }));
  const words = stops.length > 0 ? `Not like this. ${stops[0]}` : spoon?.warning || headline;
  box.append(element("p", words, { dir: "auto" }));
  box.classList.toggle("warned", words !== headline);
  return `${figure}. ${words}`;
}

const gramsText = (value) => String(Number(value.toPrecision(3)));

function showSpoons(spoons) {
  document.body.classList.toggle("no-scale", Boolean(spoons));
  byId("spoons").hidden = !spoons || spoons.length === 0;
  const rows = (spoons ?? []).map((spoon) => {
    const row = element("tr");
    row.append(
      element("th", spoon.name.replaceAll("_", " "), { scope: "row", dir: "auto" }),
      element("td", spoon.text),
      element("td", spoon.low_g > 0 ? `${gramsText(spoon.low_g)} to ${gramsText(spoon.high_g)} g` : ""),
    );
    return row;
  });
  byId("c-spoons-rows").replaceChildren(...rows);
  const warnings = new Set((spoons ?? []).map((spoon) => spoon.warning).filter(Boolean));
  byId("c-spoons-words").replaceChildren(...[...warnings].map((warning) => element("p", warning, { dir: "auto" })));
}

let saying;
/** Says `words` to a screen reader once the reader has stopped typing. */
function announce(words) {
  clearTimeout(saying);
  saying = setTimeout(() => { byId("c-live").textContent = words; }, 600);
}

/** Shows an answer, or why there is none. */
export function showAnswer(answer) {
  const problems = answer.problems ?? [];
  markFields(problems);
  const fault = byId("c-fault");
  fault.replaceChildren();
  showSpoons(answer.weigh ? answer.spoons : null);
  if (answer.weigh && answer.card_html) {
    placeCard(nodesOf(answer.card_html));
    for (const problem of problems) fault.append(sentence("p", problem.message));
    announce(showVerdict(answer));
    return;
  }
  showRefusal(problems);
  byId("c-verdict").replaceChildren();
  for (const problem of problems) fault.append(sentence("p", problem.message));
  byId("c-head").classList.add("stale");
  announce(`No numbers for this. ${problems.map((one) => `${one.message} ${one.advice ?? ""}`).join(" ")}`);
}
