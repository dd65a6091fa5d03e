/* "I came for the...": boxes beside the parts, and what the one way to all that are ticked takes, before starting. The
 * figure shows what is ticked; with the box below it, parts are ticked there instead of opened.
 */
"use strict";

(() => {
  const { say, sayMany } = partwaySays;
  const { runTo, partNames, partOf, made, linked, factsOf } = partwayRuns;
  const table = document.querySelector(".ways");
  if (!table || partwayDevice.parts.length < 2) return;

  const chosen = new Set();
  const boxes = new Map();
  const said = made("p", "pick__said");
  said.setAttribute("aria-live", "polite");
  const details = made("div", "pick__details");
  const pick = made("div", "pick", said, details);
  table.after(pick);

  for (const { id, name, href } of partwayDevice.parts) {
    const link = table.querySelector(`a[href="${href}"]`);
    if (!link) continue;
    const box = made("input");
    box.type = "checkbox";
    boxes.set(href, box);
    box.addEventListener("change", () => {
      if (box.checked) chosen.add(id);
      else chosen.delete(id);
      show();
      mark();
    });
    link.before(made("label", "tick tick--pick", box, made("span", "unseen", say("choose the {part}", { part: name }))));
  }

  const show = () => {
    const parts = partwayRuns.partsIn([...chosen].join("+"));
    details.replaceChildren();
    below.replaceChildren();
    if (!parts.length) {
      said.textContent = say("More than one part? Tick them, and one way leads to all.");
      return;
    }
    const run = runTo(parts);
    if (!run) {
      said.textContent = say("There is no way to the {part} in this guide.", { part: partNames(parts) });
      return;
    }
    const apart = parts.reduce((sum, id) => sum + partwayDevice.ways[id].steps.length, 0);
    const steps = run.steps.length;
    const told = { parts: partNames(parts), apart };
    said.textContent = parts.length > 1 && apart > steps
      ? sayMany("To the {parts}: {n}~step out, in place of {apart} one by one.", "To the {parts}: {n}~steps out, in place of {apart} one by one.", steps, told)
      : sayMany("To the {parts}: {n}~step out.", "To the {parts}: {n}~steps out.", steps, told);
    const href = parts.length > 1 ? `several.html?${parts.join("+")}` : partOf(parts[0]).href;
    const go = () => made("p", "pick__go", linked(sayMany("Show the {n}~step", "Show the {n}~steps", steps), href));
    details.append(...factsOf(run), go());
    below.append(go());
  };

  // The figure: the same parts, the same boxes.
  const sheet = document.querySelector("#stack .sheet");
  const inFigure = [...(sheet ? sheet.querySelectorAll(".stack__link, .stack__thing") : [])];
  const mode = made("input");
  mode.type = "checkbox";
  const saidBelow = made("p", "pick__below");
  const below = made("div", "pick__details");

  const mark = () => {
    for (const one of inFigure) {
      const box = boxes.get(one.getAttribute("href"));
      const name = one.classList[0];
      one.classList.toggle(`${name}--chosen`, Boolean(box && box.checked));
      if (name !== "stack__link" || !box) continue;
      if (mode.checked) {
        one.setAttribute("role", "checkbox");
        one.setAttribute("aria-checked", String(box.checked));
      } else {
        one.removeAttribute("role");
        one.removeAttribute("aria-checked");
      }
    }
    below.hidden = !mode.checked;
    saidBelow.hidden = !mode.checked;
    saidBelow.textContent = said.textContent;
  };
  const tick = (event) => {
    const box = boxes.get(event.currentTarget.getAttribute("href"));
    if (!mode.checked || !box || event.ctrlKey || event.metaKey || event.shiftKey) return;
    event.preventDefault();
    box.click();
  };
  for (const one of inFigure) {
    one.addEventListener("click", tick);
    one.addEventListener("keydown", (event) => {
      if (event.key === " ") tick(event);
    });
    // A part and its label light up together.
    const near = (isNear) => () => {
      for (const other of inFigure) {
        if (other.classList[0] === "stack__thing" && other.getAttribute("href") === one.getAttribute("href")) {
          other.classList.toggle("stack__thing--near", isNear);
        }
      }
    };
    for (const begin of ["pointerenter", "focus"]) one.addEventListener(begin, near(true));
    for (const end of ["pointerleave", "blur"]) one.addEventListener(end, near(false));
  }
  mode.addEventListener("change", () => mark());
  if (inFigure.length) {
    sheet.after(made("div", "pick", made("label", "tick", mode, say("tick parts in the figure instead of opening them")), saidBelow, below));
  }
  show();
  mark();
})();
