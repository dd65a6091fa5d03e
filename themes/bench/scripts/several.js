/* The page for several parts: takes the parts from the address (several.html?battery+charging-port), finds the one way and
 * lays its steps out, numbered for this way, out and back. Without it the page lists the ways to every two parts.
 */
"use strict";

(() => {
  const { say, sayMany, listed } = partwaySays;
  const { runTo, partsIn, partOf, partNames, made, linked, factsOf } = partwayRuns;
  const device = partwayDevice;
  const main = document.getElementById("top");
  const parts = partsIn(decodeURIComponent(location.search.slice(1)));
  const run = parts.length ? runTo(parts) : null;
  if (!run || !run.steps.length) return;
  for (const other of document.querySelectorAll("a.masthead__language")) other.search = location.search;

  const count = run.steps.length;
  const byId = (id) => document.getElementById(id);
  const copyOf = (id) => byId(id).content.cloneNode(true);
  const idOf = (number) => device.problem.steps[number].id;
  const faceWords = (face) => device.faces[face] || face || "";
  const turnWords = (face) => device.turning.replace("{face}", faceWords(face));

  /* --- what lies up, what is undone and out before each step of the way --- */

  let lying = device.problem.firstFace;
  const undone = new Set();
  const lifted = new Set();
  const folded = new Set();
  const stages = run.steps.map((number, index) => {
    const facts = device.steps[number];
    const added = new Map(run.turns.filter((turn) => turn.step === number).map((turn) => [turn.action, turn.face]));
    const faceBefore = new Map();
    const addedBefore = new Map();
    device.problem.steps[number].actions.forEach((action, at) => {
      if (added.has(at)) {
        addedBefore.set(at, lying);
        lying = added.get(at);
      }
      if (action.turn !== undefined) {
        faceBefore.set(at, lying);
        lying = action.turn;
      }
    });
    const stage = {
      number, facts, added, addedBefore, faceBefore,
      out: index + 1,
      back: 2 * count - index,
      joints: facts.joints.filter((joint) => !undone.has(joint.id)),
      parts: device.problem.steps[number].lifts.filter((part) => !lifted.has(part)),
      wasFolded: new Set(folded),
    };
    stage.screws = stage.joints.reduce((sum, joint) => sum + joint.screws.length, 0);
    stage.joints.forEach((joint) => undone.add(joint.id));
    stage.parts.forEach((part) => lifted.add(part));
    facts.folds.forEach((part) => folded.add(part));
    return stage;
  });

  /* --- pieces --- */

  const workLine = ({ words, extent, aid, note }) => made(
    "li", "work__line", made("span", "work__words", words),
    ...(extent ? [made("span", "work__extent", extent)] : []),
    ...(aid ? [made("span", "work__aid", `${say("with")} ${aid}`)] : []),
    ...(note ? [made("span", "work__note", note)] : []),
  );

  /** A ready step with the numbers of this way in the place of those that stand for them. */
  const readyStep = ({ number, out, back }) => {
    const template = byId(`ready-${idOf(number)}`);
    const copy = template.content.cloneNode(true);
    const numbers = [[template.dataset.number, out], [template.dataset.back, back]];
    const renumbered = (text) => numbers.reduce((words, [old, now]) => words.split(old).join(now), text);
    const walker = document.createTreeWalker(copy, NodeFilter.SHOW_TEXT);
    while (walker.nextNode()) walker.currentNode.data = renumbered(walker.currentNode.data);
    for (const element of copy.querySelectorAll("[aria-label]")) element.setAttribute("aria-label", renumbered(element.getAttribute("aria-label")));
    return [...copy.children];
  };

  const withAddedTurns = (article, stage) => {
    const list = article.querySelector(".work");
    const lines = [...list.children];
    for (const [at, face] of stage.added) {
      lines[at].before(workLine({ words: turnWords(face), note: say("Not a step of the whole guide: this way needs it.") }));
    }
  };

  /** The inverse of a step in lines, without what an earlier step of this way brings back itself. */
  const backLines = (stage) => {
    const joints = new Set(stage.joints.map((joint) => joint.id));
    const lines = [];
    const turns = [...stage.addedBefore].sort((a, b) => b[0] - a[0]);
    const turnsFrom = (number) => {
      while (turns.length && turns[0][0] > number) lines.push({ words: turnWords(turns.shift()[1]) });
    };
    for (const line of stage.facts.lines) {
      if (line.number >= 0) turnsFrom(line.number);
      if (line.verb === "undo" && !joints.has(line.target)) continue;
      if (line.verb === "lift" && !stage.parts.includes(line.target)) continue;
      if (line.verb === "fold" && stage.wasFolded.has(line.target)) continue;
      if (line.verb === "turn") {
        const face = stage.faceBefore.get(line.number);
        if (face !== line.target) lines.push({ words: turnWords(face) });
      } else if (line.verb === "lift" && parts.includes(line.target)) {
        lines.push({ ...line, note: say("A new {part} goes in here.", { part: partOf(line.target).name }) });
      } else if (line.verb === "lift" && stage.wasFolded.has(line.target)) {
        lines.push({ ...line, note: say("It still lies to one side.") });
      } else lines.push(line);
    }
    turnsFrom(-1);
    return lines;
  };

  /* The last cover of each face closes the device, and every cover that new glue seals. */
  const closed = new Set();
  for (const stage of stages) {
    stage.closes = false;
    for (const [face, isSealed] of stage.facts.covers) {
      if (!closed.has(face) || isSealed) stage.closes = true;
      closed.add(face);
    }
  }

  const checksBefore = (stage) => {
    const waiting = stages.slice(0, stage.out);
    const screws = waiting.reduce((sum, one) => sum + one.screws, 0);
    const plugs = waiting.flatMap((one) => one.joints).filter((joint) => joint.isPlug).map((joint) => joint.name);
    const checks = [
      screws
        ? sayMany("In the tray lie {n}~screw, all for what is still to come.", "In the tray lie {n}~screws, all for what is still to come.", screws)
        : say("The tray is empty: no screw is left over."),
      say("Every plug under it is home, and no lead lies where it comes down."),
    ];
    if (plugs.length) {
      checks.push(plugs.length > 3
        ? say("It cannot be tried yet: still to come are {count}.", { count: `${plugs.length}\u00a0${sayMany("plug", "plugs", plugs.length)}` })
        : sayMany("It cannot be tried yet: still to come is the {plugs}.", "It cannot be tried yet: still to come are the {plugs}.", plugs.length, { plugs: listed(plugs) }));
    } else if (device.power === "mains" || device.power === "both") {
      checks.push(say("Do not put it under voltage while it is open. Try it when it is closed."));
    } else if (device.power === "cell") {
      checks.push(device.trying);
    } else checks.push(say("Try by hand that everything moves as it did before."));
    return checks;
  };

  const fillBack = (article, stage) => {
    const fresh = parts.find((part) => stage.parts.includes(part));
    const title = article.querySelector(".back__title");
    title.lastChild.data = fresh ? stage.facts.newTitles[fresh] : stage.facts.backTitle.replace("{face}", faceWords(stage.faceBefore.get(0)));
    const work = article.querySelector(".back__work");
    if (stage.screws) work.append(made("p", "back__tray", sayMany("{n}~screw from tray cell~{cell}", "{n}~screws from tray cell~{cell}", stage.screws, { cell: stage.out })));
    if (stage.closes) {
      const checks = made(
        "div", "back__checks", made("p", "back__before", say("Before it closes")),
        made("ul", "", ...checksBefore(stage).map((check) => made("li", "", check))),
      );
      checks.setAttribute("role", "note");
      work.append(checks);
    }
    const list = made("ul", "work", ...backLines(stage).map(workLine));
    list.setAttribute("aria-label", say("Work of step {number}", { number: stage.back }));
    if (list.childElementCount) work.append(list);
  };

  /* --- the page --- */

  byId("pairs").remove();
  const name = byId("several-name");
  name.replaceChildren(made("span", "head__first", say("I came for the")), ` ${partNames(parts)}`);
  document.title = `${say("To the {part}", { part: partNames(parts) })} – ${device.name}`;
  byId("several-lede").textContent = run.stop === null
    ? [
      sayMany("One way to all of them, {n}~step out and as many back.", "One way to all of them, {n}~steps out and as many back.", count),
      device.problem.hasMinutes ? say("No way through this guide is quicker.") : say("No way through this guide is shorter."),
    ].join(" ")
    : say("This way ends where licensed practice begins.");
  main.append(copyOf("several-page"));
  byId("several-facts").append(...factsOf(run, (step) => (step > count ? `#back-${idOf(run.steps[2 * count - step])}` : `#step-${idOf(run.steps[step - 1])}`)));
  byId("several-glance").append(made("ol", "others", ...stages.map((stage) => made(
    "li", "", `${stage.out}\u2002`, linked(stage.facts.title, `#step-${idOf(stage.number)}`),
  ))));

  /* Leaves in reading order, each with its neighbours. */
  const stops = [];
  const goal = partNames(parts);
  for (const stage of stages) {
    const left = count - stage.out;
    const [out, back] = readyStep(stage);
    withAddedTurns(out, stage);
    fillBack(back, stage);
    stage.backArticle = back;
    const told = { number: stage.out, all: count, left };
    const end = left ? say("step~{number} of~{all}, {left} to the last part", told) : say("step~{number} of~{all}, the last part", told);
    stops.push([out, say("step~{number}", told), run.stop === null ? end : say("step~{number} of~{all}", told), byId("out")]);
  }
  if (run.stop === null) {
    byId("hand-heading").textContent = sayMany("Now the {parts} is out", "Now the {parts} are out", parts.length, { parts: goal });
    byId("several-hand").textContent = [
      sayMany("Put in the new one as the steps say.", "Put in the new ones as the steps say.", parts.length),
      say("The way back begins here; its numbers run on."),
      ...(parts.some((part) => partOf(part).hasCell) ? [say("Tape over the contacts of the old battery and hand it in as a used battery.")] : []),
    ].join(" ");
    stops.push([byId("hand"), say("in hand"), say("{number} of {all}, half way", { number: count, all: 2 * count }), null]);
  } else {
    byId("hand").replaceWith(copyOf(`ready-stop-${idOf(run.stop)}`));
  }
  for (const stage of [...stages].reverse()) {
    const left = stage.out - 1;
    const told = { number: stage.back, all: 2 * count, left };
    const end = left ? say("step~{number} of~{all}, {left} to the end", told) : say("step~{number} of~{all}, the last", told);
    stops.push([stage.backArticle, say("step~{number}", told), end, byId("back")]);
  }
  const screws = stages.reduce((sum, stage) => sum + stage.screws, 0);
  byId("several-leftover").textContent = screws ? sayMany("{n}~screw out, {n} back.", "{n}~screws out, {n} back.", screws) : say("No screw came out.");
  byId("several-screws").append(...leftovers());
  stops.push([byId("leftover"), say("the check"), say("all steps done"), null]);
  byId("several-alone").href = `#only-${stops[0][0].id}`;

  stops.forEach(([element, , place, run], index) => {
    const leaf = copyOf("several-leaf").querySelector(".leaf");
    if (run) run.append(leaf);
    else element.before(leaf);
    leaf.prepend(element);
    leaf.id = `only-${element.id}`;
    leaf.querySelector(".leaf__here").textContent = place;
    leaf.querySelector(".leaf__mode.leaf__in-page").href = `#${leaf.id}`;
    leaf.querySelector(".leaf__mode .unseen").textContent = `: ${place}`;
    leaf.querySelector(".leaf__mode.leaf__in-one").href = `#${element.id}`;
    for (const [side, neighbour] of [["previous", stops[index - 1]], ["next", stops[index + 1]]]) {
      for (const link of leaf.querySelectorAll(`.leaf__link--${side}`)) {
        if (!neighbour) {
          link.remove();
          continue;
        }
        link.href = link.classList.contains("leaf__in-one") ? `#only-${neighbour[0].id}` : `#${neighbour[0].id}`;
        const arrow = made("span", "", side === "next" ? "\u00a0→" : "←\u00a0");
        arrow.setAttribute("aria-hidden", "true");
        const words = [made("span", "unseen", `${side === "next" ? say("on to") : say("back to")} `), neighbour[1]];
        link.replaceChildren(...(side === "next" ? [...words, arrow] : [arrow, ...words]));
      }
    }
  });

  function leftovers() {
    const rows = device.sizes.map(([size, drive], index) => {
      const where = stages.map((stage) => [stage, stage.joints.reduce((sum, joint) => sum + joint.screws.filter((one) => one === index).length, 0)])
        .filter(([, screws]) => screws);
      return { size, drive, screws: where.reduce((sum, [, one]) => sum + one, 0), where: where.map(([stage]) => stage) };
    }).filter((row) => row.screws);
    if (!rows.length) return [];
    const heads = [say("Screw"), say("Drive"), say("Out"), say("In steps"), say("Back"), say("In steps")].map((words) => {
      const head = made("th", "", words);
      head.scope = "col";
      return head;
    });
    const body = rows.map((row) => {
      const head = made("th", "ledger__mono", row.size);
      head.scope = "row";
      const cells = [
        [say("Drive"), row.drive], [say("Out"), row.screws], [say("Out in steps"), row.where.map((stage) => stage.out).join(", ")],
        [say("Back"), row.screws], [say("Back in steps"), row.where.map((stage) => stage.back).sort((a, b) => a - b).join(", ")],
      ].map(([label, words]) => {
        const cell = made("td", "ledger__mono", String(words));
        cell.dataset.label = label;
        return cell;
      });
      return made("tr", "", head, ...cells);
    });
    const table = made(
      "table", "ledger leftover__screws", made("caption", "unseen", say("Screws by size: as many go back as came out")),
      made("thead", "", made("tr", "", ...heads)), made("tbody", "", ...body),
    );
    const renewed = stages.flatMap((stage) => stage.joints).filter((joint) => joint.isRenewed).map((joint) => joint.name);
    const others = [sayMany("The old {part} is left over.", "The old {part} are left over.", parts.length, { part: goal })];
    if (renewed.length) others.push(say("Made anew, so that the old is left over: {joints}.", { joints: listed(renewed) }));
    return [table, ...others.map((words) => made("p", "leftover__other", words))];
  }

  /* What this way does without stands elsewhere: a step in the whole guide, a joint with the device. */
  const elsewhere = { step: "guide.html", joint: "index.html" };
  for (const link of main.querySelectorAll('a[href^="#"]')) {
    const hash = link.getAttribute("href");
    const page = elsewhere[hash.slice(1).split("-")[0]];
    if (page && !byId(hash.slice(1))) link.href = page + hash;
  }

  if (location.hash) {
    const target = location.hash;
    location.replace("#");
    location.replace(target);
  }
})();
