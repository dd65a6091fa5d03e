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
  const { say, sayMany, listed } = partwaySays;
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

  const partNames = (parts) => listed(parts.map((id) => partOf(id).name));

  const minutes = (seconds) => {
    const whole = Math.floor(seconds / 60 + 0.5);
    if (whole < 1) return say("under~1~min");
    if (whole < 60) return say("about~{time}", { time: `${whole}\u00a0min` });
    const rest = whole % 60 ? ` ${whole % 60}\u00a0min` : "";
    return say("about~{time}", { time: `${Math.floor(whole / 60)}\u00a0h${rest}` });
  };

  const stepsWords = (numbers) => sayMany("step~{numbers}", "steps~{numbers}", numbers.length, { numbers: numbers.join(", ") });

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
    const lines = [[say("Steps"), run.stop === null ? say("{number} out, {number} back", { number: run.steps.length }) : say("{number}, then it stops", { number: run.steps.length })]];
    if (run.seconds !== null) lines.push([say("Minutes"), say("{time} out", { time: minutes(run.seconds) })]);
    lines.push([say("Screws"), String(run.screws)], [say("Tools"), run.tools.join("; ") || say("bare hands")]);
    if (run.supplies.length) lines.push([say("Used up"), run.supplies.join("; ")]);
    const facts = made("dl", "facts", ...lines.map(([label, value]) => made("div", "facts__line", made("dt", "", label), made("dd", "", value))));
    const risks = made("ul", "risks", ...run.risks.map(({ level, signal, hazard, steps }) => {
      const where = stepsWords(steps);
      const place = stepHref ? linked(where, stepHref(steps[0]), "risks__steps") : made("span", "risks__steps", where);
      return made("li", "risks__line", made("span", `risks__signal risks__signal--${level}`, signal), " ", made("span", "", hazard), " ", place);
    }));
    risks.setAttribute("aria-label", say("What can hurt or break"));
    const pieces = [facts, ...(run.risks.length ? [risks] : [])];
    if (run.beside.length) {
      const beside = run.beside.flatMap((part, index) => [index ? ", " : " ", linked(part.name, part.href)]);
      pieces.push(made("p", "risks__beside", say("While you are there, with no step more:"), ...beside, "."));
    }
    if (!run.isOptimal) pieces.push(made("p", "risks__beside", say("A shorter way may exist.")));
    return pieces;
  };

  return { runTo, partsIn, partOf, partNames, made, linked, factsOf };
})();
