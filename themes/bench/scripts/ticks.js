/* Ticking off: a box at each step and at each line of the last check, kept on this device, so that the work can rest.
 *
 * Without a script the page is the same without boxes; on paper they are printed as empty squares.
 */
"use strict";

(() => {
  const { say, sayMany } = partwaySays;
  const desk = document.getElementById("desk");
  if (!desk) return;
  const record = partwayKept.ofPage("ticks");
  const kept = partwayKept.get(record);
  let ticked = new Set(Array.isArray(kept) ? kept : []);
  const boxes = new Map();

  const boxFor = (name, words, className, spoken = "") => {
    const label = document.createElement("label");
    label.className = className;
    const box = document.createElement("input");
    box.type = "checkbox";
    box.checked = ticked.has(name);
    box.addEventListener("change", () => {
      if (box.checked) ticked.add(name);
      else ticked.delete(name);
      changed();
    });
    const text = document.createElement("span");
    text.textContent = words || spoken;
    if (!words) text.className = "unseen";
    label.append(box, text);
    boxes.set(name, box);
    return label;
  };

  /* Steps in reading order: [id, number]. */
  const steps = [];
  for (const article of document.querySelectorAll(".leaf > .step, .leaf > .back")) {
    const number = article.querySelector(".step__number, .back__number").textContent.trim();
    steps.push([article.id, number]);
    article.parentElement.querySelector(".leaf__foot").prepend(boxFor(article.id, say("step {number} done", { number }), "tick"));
  }
  document.querySelectorAll(".leftover__screws tbody tr").forEach((row, index) => {
    const head = row.querySelector("th");
    head.prepend(boxFor(`leftover-${index}`, "", "tick tick--row", say("all back: {screws}", { screws: head.textContent.trim() })));
  });

  const line = document.createElement("p");
  line.className = "desk__line desk__line--ticks";
  const said = document.createElement("span");
  said.className = "desk__said";
  said.setAttribute("aria-live", "polite");
  const go = document.createElement("a");
  go.className = "desk__go";
  const clear = document.createElement("button");
  clear.type = "button";
  clear.className = "desk__button";
  line.append(said, go, clear);
  desk.append(line);
  let cleared = null;

  const changed = () => {
    cleared = null;
    partwayKept.put(record, [...ticked]);
    show();
  };

  const show = () => {
    const done = steps.filter(([id]) => ticked.has(id)).length;
    const last = steps.map(([id]) => ticked.has(id)).lastIndexOf(true);
    const next = steps[last + 1];
    said.textContent = done ? sayMany("{done} of {n} step ticked.", "{done} of {n} steps ticked.", steps.length, { done }) : say("Tick off each step at its foot.");
    const unkept = say("This browser keeps nothing here: the ticks are gone when the page is closed.");
    if (!partwayKept.works) said.textContent += ` ${unkept}`;
    go.hidden = !done;
    go.href = next ? `#${next[0]}` : "#leftover";
    go.textContent = next ? say("Go on at step {number}", { number: next[1] }) : say("All steps are done: check what is left over");
    clear.hidden = !done && !cleared;
    clear.textContent = cleared ? say("Put the ticks back") : say("Clear the ticks");
  };

  clear.addEventListener("click", () => {
    const before = cleared ? [] : [...ticked];
    ticked = new Set(cleared || []);
    for (const [name, box] of boxes) box.checked = ticked.has(name);
    changed();
    cleared = before.length ? before : null;
    show();
    if (clear.hidden) desk.querySelector("a").focus();
  });
  show();
})();
