// A protocol prepared for judging under one choice of switches: every condition as functions over the facts, and every
// classification after those it asks about. Prepared once and kept; interpret.ts runs it on each case.

import { foundIn } from './any-case.ts';
import { bandsUnder, type ChosenOption, lineOf } from './bands.ts';
import { bilirubinLine } from './bilirubin.ts';
import { type Candidates, prepareCandidates, type TriggeredPlaces, triggeredPlaces } from './candidates.ts';
import type { FeedTable } from './care-rules.ts';
import { Choices, type PreparedUnder } from './choices.ts';
import type { Condition } from './condition.ts';
import { judgeCondition } from './condition.ts';
import type { PreparedContact } from './contacts.ts';
import type { PreparedDose } from './doses.ts';
import { type Facts, type FieldTerm, fieldTerms, Slots, verdictIn } from './facts.ts';
import type { Ground, Judge } from './judge.ts';
import { inJudgingOrder } from './judging-order.ts';
import { showField } from './lay-case.ts';
import { listedAdvice } from './listed-advice.ts';
import type { Band, NumberLine } from './number-line.ts';
import { type Advice, type ClassificationRule, type Finding, type Protocol, type Rule, urgencies } from './protocol.ts';
import type { Value } from './value.ts';

export interface PreparedRule {
  readonly rule: Rule;
  readonly when: Judge<Facts>;
  /** The place of its urgency among all: the most urgent has the least. */
  readonly rank: number;
  /** The rows of its classification and its own, each once: what is given where it alone is met. */
  readonly rows: readonly string[];
}

export interface PreparedClassification {
  readonly rule: ClassificationRule;
  /** Its place in the order in which equals are told. */
  readonly number: number;
  readonly unless: Judge<Facts> | undefined;
  readonly rules: readonly PreparedRule[];
  readonly raised: readonly PreparedRule[];
}

export interface Program {
  readonly slots: Slots;
  readonly candidates: Candidates;
  readonly protocol: Protocol;
  /** The rules of all classifications, in the order in which they are judged; those that only a routine baby is given apart. */
  readonly rules: readonly { readonly of: PreparedClassification; readonly rule: PreparedRule }[];
  readonly routineClassifications: readonly PreparedClassification[];
  readonly needs: readonly { readonly finding: string; readonly when: Judge<Facts> }[];
  readonly dangers: readonly { readonly finding: Finding; readonly slot: number; readonly insteadSlot: number | undefined }[];
  readonly doses: readonly PreparedDose[];
  readonly feedTable: FeedTable | undefined;
  readonly contacts: readonly PreparedContact[];
  readonly advice: readonly Advice[];
  /** By the number of a classification and the place of its urgency: the places of its advice in the order to act. */
  readonly adviceOf: readonly (readonly (readonly number[])[])[];
  /** Advice that is added whenever its condition holds, by its place. */
  readonly addedAdvice: readonly { readonly place: number; readonly when: Judge<Facts> }[];
}

/** What the programs of one protocol have in common: most of it reads no switch, and is prepared once. */
interface Kept {
  readonly slots: Slots;
  /** In judging order, each with its place among all. */
  readonly ordered: readonly { readonly rule: ClassificationRule; readonly number: number }[];
  readonly places: TriggeredPlaces;
  readonly dangers: Program['dangers'];
  readonly adviceOf: Program['adviceOf'];
  readonly judges: PreparedUnder<Condition, Judge<Facts>>;
  readonly classifications: PreparedUnder<ClassificationRule, PreparedClassification>;
  readonly bands: PreparedUnder<NumberLine, readonly Band[]>;
  /** By the chosen switches; a caller that tries every combination does not fill the memory. */
  readonly programs: Map<string, Program>;
}

const kept = new WeakMap<Protocol, Kept>();
const mostKept = 64;

export function programFor(protocol: Protocol, chosen: Readonly<Record<string, string>> | undefined): Program {
  const own = kept.get(protocol) ?? beginKeeping(protocol);
  kept.set(protocol, own);
  const { programs } = own;
  const key = chosen === undefined ? '' : keyOf(protocol, chosen);
  const known = programs.get(key);
  if (known !== undefined) return known;
  if (programs.size >= mostKept) programs.clear();
  const program = prepare(protocol, chosen ?? {}, own);
  programs.set(key, program);
  return program;
}

/** Judges of any condition, also of a part of one, over the facts of a case with these switches; for checks. */
export function judgesFor(protocol: Protocol, chosen: Readonly<Record<string, string>> = {}): (condition: Condition) => Judge<Facts> {
  return judging(protocol, new Choices((id) => optionIn(chosen, id, protocol)), kept.get(protocol) ?? beginKeeping(protocol)).judge;
}

function beginKeeping(protocol: Protocol): Kept {
  const slots = new Slots(protocol.findingById);
  const ordered = inJudgingOrder(
    protocol.classifications.map((rule, number) => ({ rule, number })),
    protocol,
  );
  const judged = ordered.map(({ rule }) => rule).filter(({ givenTo }) => givenTo === 'any-baby');
  const insteadOf = new Map(protocol.findings.flatMap((one) => (one.insteadOf === undefined ? [] : [[one.insteadOf, one.id] as const])));
  return {
    slots,
    ordered,
    places: triggeredPlaces(judged, protocol, slots),
    dangers: protocol.findings.flatMap((finding) => {
      if (!finding.danger || finding.insteadOf !== undefined) return [];
      const instead = insteadOf.get(finding.id);
      return [{ finding, slot: slots.of(finding.id), insteadSlot: instead === undefined ? undefined : slots.of(instead) }];
    }),
    adviceOf: protocol.classifications.map((rule) => urgencies.map((urgency) => listedAdvice(protocol, rule, urgency))),
    judges: new Map(),
    classifications: new Map(),
    bands: new Map(),
    programs: new Map(),
  };
}

function optionIn(chosen: Readonly<Record<string, string>>, id: string, protocol: Protocol): string | undefined {
  return Object.hasOwn(chosen, id) ? chosen[id] : protocol.switches.get(id)?.options[0];
}

/** Only what differs from the default, so that naming a default changes nothing. */
function keyOf(protocol: Protocol, chosen: Readonly<Record<string, string>>): string {
  const set = Object.keys(chosen).filter((id) => chosen[id] !== protocol.switches.get(id)?.options[0]);
  return set
    .sort()
    .map((id) => `${id}=${chosen[id]}`)
    .join(' ');
}

function prepare(protocol: Protocol, chosen: Readonly<Record<string, string>>, own: Kept): Program {
  const { slots, ordered, places, dangers, adviceOf } = own;
  const optionOf: ChosenOption = (id) => optionIn(chosen, id, protocol);
  const choices = new Choices(optionOf);
  const { judge, bandsOf } = judging(protocol, choices, own);
  const prepareRule =
    (always: readonly string[]) =>
    (rule: Rule): PreparedRule => ({
      rule,
      when: judge(rule.when),
      rank: urgencies.indexOf(rule.urgency),
      rows: [...new Set([...always, ...rule.rows])],
    });
  const all = ordered.map(({ rule, number }) =>
    choices.once(own.classifications, rule, () => ({
      rule,
      number,
      unless: rule.unless === undefined ? undefined : judge(rule.unless),
      rules: rule.rules.map(prepareRule(rule.rows)),
      raised: rule.raised.map(prepareRule(rule.rows)),
    })),
  );
  const judged = all.filter((one) => one.rule.givenTo === 'any-baby');
  return {
    protocol,
    slots,
    candidates: prepareCandidates(places, protocol, slots, bandsOf),
    rules: judged.flatMap((of) => of.rules.map((rule) => ({ of, rule }))),
    routineClassifications: all.filter((one) => one.rule.givenTo === 'routine-baby'),
    needs: protocol.needs.map((need) => ({ finding: need.finding, when: judge(need.when) })),
    dangers,
    doses: protocol.doses.map((rule) => ({
      rule,
      when: judge(rule.when),
      already: rule.already === undefined ? undefined : judge(rule.already),
      amounts: rule.amounts.map((amount) => ({ amount, when: judge(amount.when) })),
    })),
    feedTable: protocol.feeds.tables.find((table) => table.option === optionOf(protocol.feeds.switch)),
    contacts: (protocol.contacts.schedules.find((schedule) => schedule.option === optionOf(protocol.contacts.switch))?.contacts ?? []).map(
      (rule) => ({
        rule,
        when: rule.when === undefined ? undefined : judge(rule.when),
      }),
    ),
    advice: protocol.advice,
    adviceOf,
    addedAdvice: protocol.advice.flatMap((advice, place) => (advice.when === undefined ? [] : [{ place, when: judge(advice.when) }])),
  };
}

/** Judges of conditions and the bands that they read. */
function judging(protocol: Protocol, choices: Choices, { slots, judges, bands }: Kept) {
  const bandsOf = (finding: NumberLine): readonly Band[] =>
    choices.once(bands, finding, () => bandsUnder(finding, protocol.limits, choices.optionOf));
  const ground = groundOf(protocol, choices.optionOf, slots, bandsOf);
  const judge = (condition: Condition): Judge<Facts> => choices.once(judges, condition, () => judgeCondition(condition, ground));
  return { judge, bandsOf };
}

function groundOf(
  protocol: Protocol,
  optionOf: ChosenOption,
  slots: Slots,
  bandsOf: (finding: NumberLine) => readonly Band[],
): Ground<Facts> {
  const numbers = new Map(protocol.classifications.map((rule, number) => [rule.id, number]));
  const ground: Ground<Facts> = {
    read: (term) => readLine(term) ?? readSlot(slots.of(term)),
    show: (term) => {
      if (isFieldTerm(term)) return (facts) => showField(facts, term, protocol.lines);
      return (facts) => ({ finding: term, value: foundIn(facts.case, term) });
    },
    bandsOf,
    lineOf: (limit) => lineOf(limit, optionOf),
    optionOf: (one) => optionOf(one.id),
    restsOnAge: (term) => {
      const slot = slots.of(term);
      return (facts) => facts.restsOnAge.has(slot);
    },
    given: (classification) => {
      const number = numbers.get(classification) ?? -1;
      return {
        holds: (facts) => verdictIn(facts, number) !== undefined,
        explain: (facts, because) => because.push(...(verdictIn(facts, number)?.said.because ?? [])),
        restsOnAge: (facts) => verdictIn(facts, number)?.restsOnAge === true,
      };
    },
    givenBefore: (classification) => (facts) => facts.case.givenBefore?.[classification],
  };

  /** The lines for bilirubin are looked up when they are asked for: who is at risk depends on what was given before. */
  function readLine(term: string): ((facts: Facts) => Value) | undefined {
    const kind = term === 'bilirubin-treatment-line' ? 'treatment' : term === 'bilirubin-exchange-line' ? 'exchange' : null;
    if (kind === null) return undefined;
    const table = protocol.bilirubin.tables.find((one) => one.option === optionOf(protocol.bilirubin.switch));
    const atRisk = judgeCondition(protocol.bilirubin.atRisk, ground);
    const yellow = judgeCondition(protocol.bilirubin.yellow, ground);
    const weeks = slots.of('gestation');
    return (facts) => {
      const gestation = facts.values[weeks];
      if (table === undefined) return null;
      return bilirubinLine(table, kind, {
        ageHours: facts.case.ageHours ?? null,
        gestationWeeks: typeof gestation === 'number' ? gestation : null,
        isAtRisk: atRisk.holds(facts),
        isYellow: yellow.holds(facts),
      });
    };
  }
  return ground;
}

const readSlot =
  (slot: number) =>
  (facts: Facts): Value =>
    facts.values[slot];

const isFieldTerm = (term: string): term is FieldTerm => (fieldTerms as readonly string[]).includes(term);
