// What the salt of a recipe from elsewhere comes to.
import { byId, element, sentence } from "./controls.mjs";
import { nodesOf } from "./answer.mjs";

/** `units` gives the units that the reader has chosen. */
export function makeAppraise(engine, loaded, units) {
  for (const kind of loaded.kinds ?? []) byId("c-kind").append(element("option", kind.name, { value: kind.id }));
  const found = byId("c-found");
  const look = () => {
    const text = byId("c-text").value;
    found.replaceChildren();
    if (text.trim() === "") return;
    const answer = engine.answer({ do: "appraise", text, kind: byId("c-kind").value || null, units: units() });
    if (answer.html) {
      const nodes = nodesOf(answer.html);
      // The card has sections of the same names already: here they are no landmarks.
      for (const section of nodes.querySelectorAll("section")) section.removeAttribute("aria-labelledby");
      found.append(nodes);
    }
    for (const problem of answer.problems ?? [])
      found.append(sentence("p", [problem.message, problem.advice].filter(Boolean).join(" ")));
  };
  let waiting;
  byId("c-text").addEventListener("input", () => {
    clearTimeout(waiting);
    waiting = setTimeout(look, 200);
  });
  byId("c-kind").addEventListener("change", look);
  byId("appraise").hidden = false;
}
