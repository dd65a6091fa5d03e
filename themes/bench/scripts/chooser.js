/* "I came for the...": boxes beside the parts, and what the one way to all that are ticked takes, before starting. */
"use strict";

(() => {
  const { runTo, partNames, partOf, counted, made, linked, factsOf } = partwayRuns;
  const table = document.querySelector(".ways");
  if (!table || partwayDevice.parts.length < 2) return;

  const chosen = new Set();
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
    box.addEventListener("change", () => {
      if (box.checked) chosen.add(id);
      else chosen.delete(id);
      show();
    });
    link.before(made("label", "tick tick--pick", box, made("span", "unseen", `choose the ${name}`)));
  }

  const show = () => {
    const parts = partwayRuns.partsIn([...chosen].join("+"));
    details.replaceChildren();
    if (!parts.length) {
      said.textContent = "More than one part? Tick them, and one way leads to all.";
      return;
    }
    const run = runTo(parts);
    if (!run) {
      said.textContent = `There is no way to the ${partNames(parts)} in this guide.`;
      return;
    }
    const apart = parts.reduce((sum, id) => sum + partwayDevice.ways[id].steps.length, 0);
    const steps = counted(run.steps.length, "step", "steps");
    said.textContent = `To the ${partNames(parts)}: ${steps} out${parts.length > 1 && apart > run.steps.length ? `, in place of ${apart} one by one` : ""}.`;
    const href = parts.length > 1 ? `several.html?${parts.join("+")}` : partOf(parts[0]).href;
    details.append(...factsOf(run), made("p", "pick__go", linked(`Show the ${steps}`, href)));
  };
  show();
})();
