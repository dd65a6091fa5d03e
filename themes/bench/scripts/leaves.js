/* Going on by keys: n for the next step, p for the one before, in the whole page and with one step at a time.
 *
 * Letters only, so that scrolling keys stay as they are; not while something is written, and never with a modifier. The
 * keys can be turned off on the page, for those whose speech or hand would hit them by accident.
 */
"use strict";

(() => {
  const { say } = partwaySays;
  const NEAR_TOP = 80; // px from the top of the screen, within which a step counts as the one being read
  const leaves = [...document.querySelectorAll(".leaf")];
  const desk = document.getElementById("desk");
  if (!leaves.length || !desk) return;

  const label = document.createElement("label");
  label.className = "tick desk__keys";
  const box = document.createElement("input");
  box.type = "checkbox";
  box.checked = partwayKept.get("keys") !== false;
  box.addEventListener("change", () => partwayKept.put("keys", box.checked));
  const words = document.createElement("span");
  words.append(...say("keys: {next} next step, {previous} previous").split(/(\{\w+\})/).map((piece) => (piece === "{next}" ? key("n") : piece === "{previous}" ? key("p") : piece)));
  label.append(box, words);
  desk.querySelector(".desk__line").append(label);

  function key(letter) {
    const element = document.createElement("kbd");
    element.textContent = letter;
    return element;
  }

  /* Where the last key led to; scrolling by hand makes the page forget it. */
  let aimed = null;
  for (const kind of ["wheel", "touchmove", "pointerdown"]) addEventListener(kind, () => { aimed = null; }, { passive: true });

  const alone = () => document.querySelector(".leaf:target");
  const current = () => alone() || aimed || leaves.filter((leaf) => leaf.getBoundingClientRect().top <= NEAR_TOP).pop() || null;

  addEventListener("keydown", (event) => {
    if (event.key !== "n" && event.key !== "p") {
      aimed = null;
      return;
    }
    if (!box.checked || event.ctrlKey || event.metaKey || event.altKey || event.shiftKey) return;
    if (event.target.closest("input:not([type=checkbox]), textarea, select, [contenteditable]")) return;
    const at = leaves.indexOf(current()) + (event.key === "n" ? 1 : -1);
    const leaf = leaves[Math.max(0, at)];
    if (!leaf || at < -1) return;
    event.preventDefault();
    const isAlone = alone() !== null;
    aimed = leaf;
    location.hash = isAlone ? leaf.id : leaf.querySelector("a.leaf__mode.leaf__in-one").getAttribute("href");
  });
})();
