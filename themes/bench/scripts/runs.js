/* A way to several parts with all that a reader wants to know before starting: from partwayDevice (several.js).
 *
 * partwayRuns.runTo(parts) -> null where there is no way, else
 *   {parts, steps, stop, turns, seconds, isOptimal, tools, supplies, risks, beside, screws}
 *   steps    numbers of steps, up to where licensed practice begins; stop: the number of that step, or null
 *   turns    the turns to add, as in routes.js
 *   risks    [{level, signal, hazard, steps}], the gravest first; steps counted from 1, the way back too
 *   beside   other parts whose own way lies within these steps
 */
"use strict";

const partwayRuns = (() => {
  const LEVELS = ["danger", "warning", "caution", "notice"];
  const device = partwayDevice;
  const unique = (values) => [...new Set(values)];

  const partOf = (id) => device.parts.find((part) => part.id === id);

  /** The parts named in an address like `battery+charging-port`, in the order of the pages; unknown names are left out. */
  const partsIn = (text) => {
    const asked = new Set(text.split("+"));
    return device.parts.map((part) => part.id).filter((id) => asked.has(id));
  };

  const runTo = (parts) => {
    const way = device.ways[parts.join("+")] || partwayRoutes.bestRoute(device.problem, parts);
    if (!way || !parts.length) return null;
    const stopAt = way.steps.findIndex((number) => device.steps[number].isLicensed);
    const steps = stopAt < 0 ? way.steps : way.steps.slice(0, stopAt);
    const facts = steps.map((number) => device.steps[number]);
    const risks = new Map();
    facts.forEach((step, index) => {
      for (const [level, signal, hazard, isBack] of step.risks) {
        const key = `${signal} ${hazard}`;
        if (!risks.has(key)) risks.set(key, { level, signal, hazard, steps: [] });
        risks.get(key).steps.push(isBack ? 2 * steps.length - index : index + 1);
      }
    });
    const here = new Set(steps);
    const beside = device.parts.filter(({ id }) => {
      const own = device.ways[id];
      return !parts.includes(id) && own && own.steps.every((number) => here.has(number));
    });
    const undone = new Map(facts.flatMap((step) => step.joints.map((joint) => [joint.id, joint])));
    return {
      parts,
      steps,
      stop: stopAt < 0 ? null : way.steps[stopAt],
      turns: way.turns.filter((turn) => here.has(turn.step)),
      seconds: stopAt < 0 ? way.seconds : null,
      isOptimal: way.isOptimal,
      tools: unique(facts.flatMap((step) => step.tools)),
      supplies: unique(facts.flatMap((step) => step.supplies)),
      risks: [...risks.values()]
        .map((risk) => ({ ...risk, steps: [...new Set(risk.steps)].sort((a, b) => a - b) }))
        .sort((a, b) => LEVELS.indexOf(a.level) - LEVELS.indexOf(b.level)),
      beside,
      screws: [...undone.values()].reduce((sum, joint) => sum + joint.screws.length, 0),
    };
  };

  /* --- words ------------------------------------------------------------------------------------------------- */

  const listed = (words) => (words.length > 1 ? `${words.slice(0, -1).join(", ")} and ${words[words.length - 1]}` : words.join(""));
  const counted = (number, one, many) => `${number}\u00a0${number === 1 ? one : many}`;
  const partNames = (parts) => listed(parts.map((id) => partOf(id).name));

  const minutes = (seconds) => {
    const whole = Math.floor(seconds / 60 + 0.5);
    if (whole < 1) return "under 1\u00a0min";
    if (whole < 60) return `about ${whole}\u00a0min`;
    return `about ${Math.floor(whole / 60)}\u00a0h${whole % 60 ? ` ${whole % 60}\u00a0min` : ""}`;
  };

  const stepsWords = (numbers) => `${numbers.length === 1 ? "step" : "steps"}\u00a0${numbers.join(", ")}`;

  /** An element; what it holds are words or elements. Words never become markup. */
  const made = (tag, name, ...inside) => {
    const element = document.createElement(tag);
    if (name) element.className = name;
    element.append(...inside);
    return element;
  };

  const linked = (words, href, name = "") => {
    const link = made("a", name, words);
    link.href = href;
    return link;
  };

  /** The lines of facts and of risks that stand before a start; `stepHref` gives the address of a step by its number. */
  const factsOf = (run, stepHref = null) => {
    const lines = [["Steps", run.stop === null ? `${run.steps.length} out, ${run.steps.length} back` : `${run.steps.length}, then it stops`]];
    if (run.seconds !== null) lines.push(["Minutes", `${minutes(run.seconds)} out`]);
    lines.push(["Screws", String(run.screws)], ["Tools", listed(run.tools) || "bare hands"]);
    if (run.supplies.length) lines.push(["Used up", listed(run.supplies)]);
    const facts = made("dl", "facts", ...lines.map(([label, value]) => made("div", "facts__line", made("dt", "", label), made("dd", "", value))));
    const risks = made("ul", "risks", ...run.risks.map(({ level, signal, hazard, steps }) => {
      const where = stepsWords(steps);
      const place = stepHref ? linked(where, stepHref(steps[0]), "risks__steps") : made("span", "risks__steps", where);
      return made("li", "risks__line", made("span", `risks__signal risks__signal--${level}`, signal), " ", made("span", "", hazard), " ", place);
    }));
    risks.setAttribute("aria-label", "What can hurt or break");
    const pieces = [facts, ...(run.risks.length ? [risks] : [])];
    if (run.beside.length) {
      const beside = run.beside.flatMap((part, index) => [index ? ", " : " ", linked(part.name, part.href)]);
      pieces.push(made("p", "risks__beside", "While you are there, with no step more:", ...beside, "."));
    }
    if (!run.isOptimal) pieces.push(made("p", "risks__beside", "A shorter way may exist."));
    return pieces;
  };

  return { runTo, partsIn, partOf, partNames, listed, counted, made, linked, factsOf };
})();
