/* The way to several parts at once: the same search as generator/orders/routes.py, for the page.
 *
 * partwayRoutes.bestRoute(problem, parts) -> {steps, turns, cost, seconds, toolChanges, isOptimal} or null for no way.
 *   problem  as generator/orders/problems.py writes it
 *   steps    numbers of steps, in the order they are done
 *   turns    [{step, action, face}]: before that action of that step the device has to be turned over
 *
 * Every clause of a step on the way has to have a member that was done before. Cheapest first; ties go to fewer changes
 * of tool, then to the author's order. Sets of steps are BigInt bit sets: bit n is step n.
 */
"use strict";

const partwayRoutes = (() => {
  const NODE_LIMIT = 20000;
  const bit = (number) => 1n << BigInt(number);
  const has = (items, number) => (items >> BigInt(number)) & 1n;

  const members = (items) => {
    const found = [];
    for (let number = 0; items; number += 1, items >>= 1n) if (items & 1n) found.push(number);
    return found;
  };

  /** Everything of `allowed` that can be done when whatever can be done is done. */
  const saturate = (needs, allowed) => {
    let done = 0n;
    let left = members(allowed);
    for (;;) {
      const waiting = left.filter((number) => {
        if (!needs[number].every((clause) => clause & done)) return true;
        done |= bit(number);
        return false;
      });
      if (waiting.length === left.length || !waiting.length) return done;
      left = waiting;
    }
  };

  /** For every step that can be done the steps that every way to it has in common (the step itself left out). */
  const gatesOf = (needs, reach) => {
    const all = members(reach);
    const gates = new Map(all.map((number) => [number, reach]));
    for (let changed = true; changed;) {
      changed = false;
      for (const number of all) {
        let found = bit(number);
        for (const clause of needs[number]) {
          let shared = reach;
          for (const member of members(clause & reach)) shared &= gates.get(member);
          found |= shared;
        }
        if (found !== gates.get(number)) {
          gates.set(number, found);
          changed = true;
        }
      }
    }
    return gates;
  };

  /** The turns that have to be added to these steps, done in this order; after each the device is taken to lie right. */
  const missingTurns = (problem, order) => {
    const turns = [];
    const gone = new Set();
    let lying = problem.firstFace;
    for (const number of order) {
      problem.steps[number].actions.forEach((action, index) => {
        if (action.turn !== undefined) lying = action.turn;
        else if (action.face !== undefined && action.face !== lying && !action.carriers.some((part) => gone.has(part))) {
          turns.push({ step: number, action: index, face: action.face });
          lying = action.face;
        } else if (action.lift !== undefined) gone.add(action.lift);
      });
    }
    return turns;
  };

  const toolChanges = (problem, order) => {
    let held = 0;
    let changes = 0;
    for (const number of order) {
      for (const { tools } of problem.steps[number].actions) {
        if (tools !== undefined) {
          if (held && tools !== held) changes += 1;
          held = tools;
        }
      }
    }
    return changes;
  };

  /** Of what can be done always the step that stands first with the author. */
  const inOrder = (needs, items) => {
    const order = [];
    let done = 0n;
    for (let left = members(items); left.length;) {
      const next = left.findIndex((number) => needs[number].every((clause) => clause & done));
      if (next < 0) return null;
      const [number] = left.splice(next, 1);
      order.push(number);
      done |= bit(number);
    }
    return order;
  };

  /** Negative if rank a is better than b: cost, changes of tool, then the author's order, a shorter start first. */
  const compared = (a, b) => {
    if (a.cost !== b.cost) return a.cost - b.cost;
    if (a.changes !== b.changes) return a.changes - b.changes;
    for (let index = 0; index < Math.min(a.order.length, b.order.length); index += 1) {
      if (a.order[index] !== b.order[index]) return a.order[index] - b.order[index];
    }
    return a.order.length - b.order.length;
  };

  /** The author's own turning-over steps, wherever the same turn would have to be added just before a step. */
  const withTurningSteps = (problem, order) => {
    const result = [...order];
    const spare = problem.steps.map((step, number) => number).filter((n) => problem.steps[n].isInOrder && problem.steps[n].onlyTurn !== null);
    for (;;) {
      const [turn] = missingTurns(problem, result);
      if (turn === undefined) return result;
      const before = problem.steps[turn.step].actions.slice(0, turn.action);
      if (before.some((action) => action.face !== undefined || action.turn !== undefined)) return result;
      const fitting = spare.filter((number) => problem.steps[number].onlyTurn === turn.face && number < turn.step);
      if (!fitting.length) return result;
      const found = fitting[fitting.length - 1];
      spare.splice(spare.indexOf(found), 1);
      result.splice(result.indexOf(turn.step), 0, found);
    }
  };

  const bestRoute = (problem, parts) => {
    const needs = problem.steps.map((step) => step.needs.map((clause) => clause.reduce((set, n) => set | bit(n), 0n)));
    const stepsThat = (is) => problem.steps.reduce((set, step, number) => (is(step) ? set | bit(number) : set), 0n);
    const goals = parts.map((part) => stepsThat((step) => step.lifts.includes(part)));
    const possible = saturate(needs, stepsThat((step) => !step.turnsOnly && step.actions.length > 0));
    if (goals.some((goal) => !(goal & possible))) return null;
    const price = (items) => members(items).reduce((sum, number) => sum + problem.steps[number].cost, 0);
    const isDoable = (items) => saturate(needs, items) === items && goals.every((goal) => goal & items);
    const ranked = (items) => {
      const order = inOrder(needs, items);
      const turns = problem.hasMinutes ? 0 : missingTurns(problem, order).length;
      return { cost: price(items) + turns, changes: toolChanges(problem, order), order };
    };

    /** What is chosen with all that it cannot do without, or null if what is ruled out makes it impossible.
     *  most: a way that holds another way has to cost less than that one, so no step is done for nothing. */
    const completed = (allowed, chosen, most) => {
      const reach = saturate(needs, allowed);
      if (chosen & ~reach || goals.some((goal) => !(goal & reach))) return null;
      const gates = gatesOf(needs, reach);
      for (const goal of goals) {
        let shared = reach;
        for (const number of members(goal & reach)) shared &= gates.get(number);
        chosen |= shared;
      }
      for (const number of members(chosen)) chosen |= gates.get(number);
      return { allowed: reach, chosen, most, bound: price(chosen) };
    };

    /** The steps one of which meets a need that is still open. */
    const openChoice = ({ allowed, chosen }) => {
      const done = saturate(needs, chosen);
      const wanted = goals.filter((goal) => !(goal & chosen));
      for (const number of members(chosen & ~done)) wanted.push(...needs[number].filter((clause) => !(clause & done)));
      return wanted.map((clause) => clause & allowed & ~chosen).find((options) => options) || 0n;
    };

    let best = null;
    let nodes = 0;
    const stack = [completed(possible, 0n, Infinity)];
    while (stack.length) {
      const node = stack.pop();
      if (node === null || (best && node.bound > best.cost)) continue;
      nodes += 1;
      if (nodes > NODE_LIMIT && best) break;
      let options = openChoice(node);
      let { most } = node;
      if (isDoable(node.chosen)) {
        const rank = ranked(node.chosen);
        if (rank.cost <= most && (!best || compared(rank, best) < 0)) best = rank;
        most = Math.min(most, rank.cost - 1);
        /* One step more can pay for itself: it may spare turns, by another order or by what it takes to the bench. */
        const spare = Math.min(best.cost, most) - node.bound;
        const affordable = members(node.allowed & ~node.chosen).filter((n) => problem.steps[n].cost <= spare);
        options = affordable.reduce((set, number) => set | bit(number), 0n);
      }
      if (!options) continue;
      const choice = members(options).sort((a, b) => problem.steps[a].cost - problem.steps[b].cost || a - b)[0];
      stack.push(completed(node.allowed & ~bit(choice), node.chosen, most));
      stack.push(completed(node.allowed, node.chosen | bit(choice), most));
    }

    const steps = withTurningSteps(problem, best.order);
    const seconds = steps.map((number) => problem.steps[number].seconds);
    return {
      steps,
      turns: missingTurns(problem, steps),
      cost: best.cost,
      seconds: seconds.includes(null) ? null : seconds.reduce((sum, one) => sum + one, 0),
      toolChanges: toolChanges(problem, steps),
      isOptimal: nodes <= NODE_LIMIT,
    };
  };

  return { bestRoute };
})();
