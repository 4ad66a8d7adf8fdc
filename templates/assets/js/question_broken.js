/**
 * Questions of the sort "broken": a procedure with one step left out or in the wrong place. At which step is a rule
 * broken, or which step is missing? Exactly one choice is right by the law; of the others each is told why it is not. Pure.
 */

(function () {
  "use strict";

  /** @type {any} */
  const page = window;
  /** @type {any} */
  const seambook = (page.seambook = page.seambook || {});

  /**
   * @typedef {{step: number, to: number, order: number[]}} Change  A step left out (`to` is LEFT_OUT), or moved to another place in the order.
   * @typedef {{procedure: AskedProcedure, change: Change, breaches: LawBreach[], breach: LawBreach, shown: number[]}} Broken
   *   `shown` are the steps that the reader is shown, as they stand in the changed order.
   */

  const LEFT_OUT = -1;
  const FAR = 4;
  const LEAST_SHOWN = 5;
  const MOST_SHOWN = 8;
  const OTHERS = 3;
  const TRIES = 60;
  /** Steps so far off are offered as the one that is missing. */
  const NEAR = 15;

  /** @param {any} lesson @param {Chance} chance */
  function make(lesson, chance) {
    const all = seambook.questionSteps.of(lesson);
    for (let n = 0; n < TRIES && all.length; n += 1) {
      const asked = chance.pick(all);
      const form = chance.pick(["where", "which"]);
      const broken = breakOne(asked, form, chance);
      const found = broken && (form === "where" ? where(broken, chance) : which(broken, chance));
      if (found) return found;
    }
    return null;
  }

  /** @param {Asked} asked @param {string} form @param {Chance} chance @returns {Broken | null} */
  function breakOne({ procedure, isMeant }, form, chance) {
    const meant = procedure.own.filter((at) => isMeant(procedure.steps[at]));
    if (meant.length < LEAST_SHOWN) return null;
    const change = changed(procedure, chance.pick(meant), form === "which" || chance.below(3) === 0, chance);
    const breaches = change ? procedure.fresh(change.order) : [];
    if (!change || !breaches.length) return null;
    const breach = first(procedure, change, breaches, form);
    const shown = breach ? span(change, breach, chance) : [];
    const isApart = new Set([...shown, change.step].map((at) => procedure.steps[at].do)).size === new Set([...shown, change.step]).size;
    return breach && shown.length && isApart ? { procedure, change, breaches, breach, shown } : null;
  }

  /** @param {AskedProcedure} procedure @param {number} step @param {boolean} isLeftOut @param {Chance} chance @returns {Change | null} */
  function changed({ own, law }, step, isLeftOut, chance) {
    const rest = own.filter((at) => at !== step);
    if (isLeftOut) return step === law.lastHold ? null : { step, to: LEFT_OUT, order: rest };
    const to = step + chance.pick([-FAR, -3, -2, -1, 1, 2, 3, FAR]);
    const isBeyond = to < 0 || to >= own.length || (Math.min(step, to) <= law.lastHold && law.lastHold <= Math.max(step, to));
    return isBeyond ? null : { step, to, order: [...rest.slice(0, to), step, ...rest.slice(to)] };
  }

  /**
   * The breach that is asked about: where a list is worked down, the first at which a rule is broken, if the changed step
   * is the reason; and what is owed only where the missing step is asked for.
   * @param {AskedProcedure} procedure @param {Change} change @param {LawBreach[]} breaches @param {string} form
   */
  function first(procedure, change, breaches, form) {
    const now = breaches.filter(({ sort }) => sort !== "owes");
    const list = now.length ? now.filter(({ at }) => at === now[0].at) : form === "which" ? breaches : [];
    return list.find((breach) => isReason(procedure.law.steps[change.step], change, breach));
  }

  /** Whether a rule is broken just by what a step does not do any more, or does in the wrong place. @param {LawStep} step @param {Change} change @param {LawBreach} breach */
  function isReason(step, change, { sort, at, other, state }) {
    if (sort === "needs" && step.makes.includes(state)) return true;
    if (sort === "bans" && step.spoils.includes(state)) return true;
    if (sort === "owes" && step.makes.includes(state)) return true;
    return change.to !== LEFT_OUT && (at === change.step || other === change.step);
  }

  /** What is shown: both places of the change and of the breach, and some steps round them; nothing where they lie too far apart. @param {Change} change @param {LawBreach} breach @param {Chance} chance @returns {number[]} */
  function span({ step, to, order }, breach, chance) {
    const gap = Math.min(step, order.length - 1);
    const ends = [order.indexOf(breach.at), gap, to === LEFT_OUT ? Math.max(0, step - 1) : to];
    let from = Math.min(...ends);
    let until = Math.max(...ends) + 1;
    if (until - from > MOST_SHOWN) return [];
    const wanted = Math.max(until - from, LEAST_SHOWN + chance.below(MOST_SHOWN - LEAST_SHOWN + 1));
    while (until - from < wanted && (from > 0 || until < order.length)) {
      if (from > 0 && (until === order.length || chance.below(3) > 0)) from -= 1;
      else until += 1;
    }
    return until - from < LEAST_SHOWN ? [] : order.slice(from, until);
  }

  /** At which step is a rule broken first? @param {Broken} broken @param {Chance} chance */
  function where(broken, chance) {
    const { procedure, change, breaches, breach, shown } = broken;
    const clean = shown.filter((at) => !breaches.some((one) => one.at === at));
    const others = [...chance.shuffle(clean.filter((at) => at !== change.step)).slice(0, OTHERS)];
    if (clean.includes(change.step) && others.length) others[0] = change.step;
    if (others.length < OTHERS) return null;
    const choices = shown.filter((at) => at === breach.at || others.includes(at));
    const explain = Object.fromEntries(choices.map((at) => [procedure.steps[at].key, at === breach.at ? rightTold(broken) : wrongTold(broken, at)]));
    return {
      ...question(broken, "where"),
      ask: "You work down this list from the top. One step is missing or in the wrong place. At which step do you first break a rule?",
      words: seambook.questionSteps.wordsOf(shown.map((at) => procedure.steps[at].do)),
      choices: choices.map((at) => ({ id: procedure.steps[at].key, text: `${shown.indexOf(at) + 1}. ${procedure.steps[at].do}` })),
      right: procedure.steps[breach.at].key, explain,
    };
  }

  /** Which step is missing? @param {Broken} broken @param {Chance} chance */
  function which(broken, chance) {
    const { procedure, change, breach, shown } = broken;
    const texts = new Set([...shown, change.step].map((at) => procedure.steps[at].do));
    const near = procedure.own.filter((at) => Math.abs(at - change.step) <= NEAR && !shown.includes(at) && !texts.has(procedure.steps[at].do));
    const others = chance.shuffle(near.filter((at) => !mends(broken, at))).slice(0, OTHERS);
    if (others.length < OTHERS || new Set(others.map((at) => procedure.steps[at].do)).size < OTHERS) return null;
    const at = shown.indexOf(breach.at) + 1;
    const explain = Object.fromEntries([change.step, ...others].map((one) => [procedure.steps[one].key, one === change.step ? rightTold(broken) : otherTold(broken, one)]));
    return {
      ...question(broken, "which"),
      ask: breach.sort === "owes"
        ? `One step is missing from this list. Because of it, what step ${at} makes necessary is never done. Which step is missing?`
        : `One step is missing from this list. Because of it, a rule is broken at step ${at}. Which step is missing?`,
      words: seambook.questionSteps.wordsOf([...shown, change.step, ...others].map((one) => procedure.steps[one].do)),
      choices: chance.shuffle([change.step, ...others]).map((one) => ({ id: procedure.steps[one].key, text: procedure.steps[one].do })),
      right: procedure.steps[change.step].key, explain,
    };
  }

  /** Whether another step, put where one was left out, would do what the rule asks for. @param {Broken} broken @param {number} at */
  function mends({ procedure, change, breach }, at) {
    const order = [...change.order.slice(0, change.step), at, ...change.order.slice(change.step)];
    return !procedure.fresh(order).some((one) => one.sort === breach.sort && one.rule === breach.rule && one.at === breach.at && one.state === breach.state);
  }

  /** @param {Broken} broken @param {string} form */
  function question({ procedure, change, shown }, form) {
    const { steps } = procedure;
    const place = change.to === LEFT_OUT ? "" : `>${change.to}`;
    return {
      id: `broken:${procedure.id}:${form}:${steps[change.step].key}${place}`, sort: "broken", form,
      of: { text: procedure.title, href: procedure.href, procedure: procedure.id },
      items: shown.map((at) => ({ id: steps[at].key, text: steps[at].do, href: steps[at].href })),
      change: { step: steps[change.step].key, to: change.to },
    };
  }

  /** @param {Broken} broken @returns {Told[]} */
  function rightTold({ procedure, change, breach, shown }) {
    const { steps } = procedure;
    const moved = steps[change.step];
    const gap = shown.indexOf(change.order[change.step]);
    const what = change.to === LEFT_OUT ? `Left out${gap < 0 ? "" : ` before step ${gap + 1}`} is “${moved.do}”` : `In the wrong place is “${moved.do}”`;
    const other = breach.other !== change.step && breach.other !== breach.at ? shown.indexOf(breach.other) : -1;
    const told = other < 0 ? [] : [{ text: `The rule is about step ${other + 1} too: “${steps[breach.other].do}”`, href: steps[breach.other].href }];
    return [seambook.questionSteps.ruleOf(breach.rule), { text: what, href: moved.href }, ...told];
  }

  /** Why a shown step breaks no rule where it stands. @param {Broken} broken @param {number} at @returns {Told[]} */
  function wrongTold(broken, at) {
    const { procedure, change, breach, shown } = broken;
    const step = procedure.steps[at];
    const right = shown.indexOf(breach.at) + 1;
    const isMoved = at === change.step;
    const here = shown.indexOf(at) + 1;
    const told = isMoved
      ? { text: `Step ${here} is in the wrong place, but doing it there breaks no rule by itself. The rule is broken at step ${right}`, href: step.href }
      : seambook.questionSteps.reasoned(`Step ${here} breaks no rule here.`, step);
    return [told, { text: `Step ${right} does break one`, href: procedure.steps[breach.at].href }, ...rightTold(broken)];
  }

  /** Why a step is not the one that is missing. @param {Broken} broken @param {number} at @returns {Told[]} */
  function otherTold(broken, at) {
    const step = broken.procedure.steps[at];
    return [seambook.questionSteps.reasoned(`With “${step.do}” the rule would still be broken.`, step), ...rightTold(broken)];
  }

  seambook.questionBroken = { make };
})();
