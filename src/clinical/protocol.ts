// The shape of a protocol: what may be found on a baby, what it means, and what follows.
// Only types. The values live in flows/protocol/*.yaml and are read by src/authoring; no threshold stands in code.
// Next: number-line.ts, condition.ts (how a condition is judged), care-rules.ts, interpret.ts (findings in, classifications out).

import type { Bilirubin, ContactSchedule, DoseRule, FeedTable } from './care-rules.ts';
import type { Condition } from './condition.ts';
import type { Growth } from './growth.ts';
import type { Reason } from './judge.ts';
import type { Limit, NumberLine, Switch } from './number-line.ts';

/** How soon a baby needs someone else, most urgent first. The highest of its classifications is the baby's. */
export const urgencies = ['urgent', 'refer', 'treat', 'routine'] as const;
export type Urgency = (typeof urgencies)[number];

/** What a baby comes out as, most urgent first. One who is not yet called well ranks above one who is. */
export const outcomes = ['urgent', 'refer', 'treat', 'incomplete', 'routine'] as const;

export type Sex = 'girl' | 'boy' | 'not-clear';

export interface Gestation {
  readonly weeks: number;
  readonly days?: number;
}

/** One baby at one instant, as the protocol sees it. Left out or null: not known. */
export interface Case {
  readonly ageHours?: number | null;
  readonly sex?: Sex | null;
  readonly gestation?: Gestation | null;
  readonly birthWeightGrams?: number | null;
  readonly weightGrams?: number | null;
  readonly findings: Readonly<Record<string, FindingValue>>;
  /**
   * Classifications that the looks before this one gave without a break, of which this look has seen again what they rested on:
   * how many hours ago each was given first.
   */
  readonly givenBefore?: Readonly<Record<string, number>>;
  /** `normal`: everything not listed was looked for and is normal. */
  readonly unlisted?: 'not-assessed' | 'normal';
  /** Protocol switches chosen by the programme: switch id -> option id. */
  readonly switches?: Readonly<Record<string, string>>;
}

/** Why a classification was given: what was found, and the limit it was held against. */
export type Because = Reason;

export interface Classification {
  readonly id: string;
  readonly urgency: Urgency;
  readonly because: readonly Because[];
  readonly rows: readonly string[];
  /** ISO 8601 duration: look again (treat, routine). */
  readonly recheck?: string;
  /** ISO 8601 duration: be seen by (refer). */
  readonly within?: string;
}

/** What a case means. `incomplete`: nothing found, but something needed was not looked at. */
export interface Interpretation {
  readonly urgency: (typeof outcomes)[number];
  readonly classifications: readonly Classification[];
  readonly missing: readonly string[];
  /** Message keys, in the order to act. */
  readonly advice: readonly string[];
  readonly computed: Readonly<Record<string, unknown>>;
}

/** When a finding is asked: first-day examination, postnatal contact, or both. */
export type AskedAt = 'first-day' | 'postnatal' | 'both';

interface FindingCommon {
  readonly id: string;
  readonly group: string;
  /** Rows of the clinical reference that read this finding. */
  readonly rows: readonly string[];
  readonly at: AskedAt;
  /** Must be answered before `routine` may be given. */
  readonly danger: boolean;
  /** Answered instead of another danger finding: touch in place of a thermometer. */
  readonly insteadOf?: string;
  /** The finding, or the options listed under optionSex, can only be found on this sex. */
  readonly sex?: 'girl' | 'boy';
  /** True: when all that is not listed is normal, this one was still not done (tests, doses). */
  readonly notDoneUnlisted: boolean;
}

export interface SignFinding extends FindingCommon {
  readonly kind: 'sign';
  /** True: seen, it is a normal variant and is named to the mother as normal. */
  readonly variant: boolean;
}

export interface ChoiceFinding extends FindingCommon {
  readonly kind: 'choice';
  /** The first option is the normal one. */
  readonly options: readonly string[];
  readonly variantOptions: readonly string[];
  readonly optionSex: Readonly<Record<string, 'girl' | 'boy'>>;
}

export interface NumberFinding extends FindingCommon, NumberLine {
  readonly kind: 'number' | 'count';
}

export type Finding = SignFinding | ChoiceFinding | NumberFinding;

/** What was recorded for a finding; null: not looked at. */
export type FindingValue = boolean | string | number | readonly number[] | null;

/** One way to meet a classification. What is met adds its rows, and the most urgent rule that is met decides. */
export interface Rule {
  readonly when: Condition;
  readonly rows: readonly string[];
  readonly urgency: Urgency;
  /** ISO 8601 duration, or the age in hours at which to look again. */
  readonly recheck?: string | { readonly atAgeHours: number };
  readonly within?: string;
}

export interface ClassificationRule {
  readonly id: string;
  readonly family: string;
  /** A box that gathers signs which other classifications already name; not said to the worker by itself. */
  readonly box: boolean;
  /** `routine-baby`: given if and only if the baby's urgency is routine, and only values recorded in the case count. */
  readonly givenTo: 'any-baby' | 'routine-baby';
  /** Rows that are met whenever it is given. */
  readonly rows: readonly string[];
  /** It is not given where this holds. */
  readonly unless?: Condition;
  readonly rules: readonly Rule[];
  /** Raise it, once one of its rules is met. */
  readonly raised: readonly Rule[];
  /** Message keys, without the order to act in. */
  readonly advice: readonly string[];
}

/** Something a half-met rule waits for: `finding` is needed while `when` holds. */
export interface Need {
  readonly finding: string;
  readonly when: Condition;
}

/** Answers that cannot both be true. */
export interface Contradiction {
  /** The finding, or the field of the case, that is pointed at. */
  readonly at: string;
  readonly when: Condition;
  readonly says: string;
  readonly mend: string;
}

/** One thing to do. The protocol lists all of them in the order to act. */
export interface Advice {
  readonly key: string;
  readonly rows: readonly string[];
  /** Added whenever this holds, whatever was found; may ask for `urgency` and `treat-count`. */
  readonly when?: Condition;
  /** Advice that must not stand beside it. */
  readonly silences: readonly string[];
  /** Of a classification that lists it, said only where that is so urgent. */
  readonly onlyFor: readonly Urgency[];
  /** True: only for workers whom the roster marks as authorised to give injections. */
  readonly authorised: boolean;
}

export type Proof = 'seen' | 'from-memory' | 'project';

export interface RowSource {
  readonly source: string;
  readonly proof: readonly Proof[];
}

/** Ages, weeks and centiles at which a reference changes over or a size has a name. */
export interface ReferenceLines {
  /** Up to this age a weight stands in for a birth weight that is not known; from it, classes read the weight now. */
  readonly weightStandsInUntilHours: number;
  /** Up to this age the birth weight is the weight of today, for a dose. */
  readonly doseFromBirthWeightUntilHours: number;
  /** Head and length are held against the standards for newborns up to this age. */
  readonly atBirthUntilHours: number;
  /** Born before so many weeks, growth is read at the age since the last period. */
  readonly pretermBeforeWeeks: number;
  readonly smallBelowCentile: number;
  readonly largeAboveCentile: number;
  /** The day of the week at which size is read when only the week is known. */
  readonly dayOfWeek: number;
}

export interface Protocol {
  /** In the order in which they are looked for. */
  readonly findings: readonly Finding[];
  readonly findingById: ReadonlyMap<string, Finding>;
  /** The fields of the case that are numbers: plausible ranges and bands. */
  readonly measures: ReadonlyMap<string, NumberFinding>;
  /** Named conditions, such as danger-sign. */
  readonly conditions: ReadonlyMap<string, Condition>;
  readonly limits: ReadonlyMap<string, Limit>;
  readonly switches: ReadonlyMap<string, Switch>;
  /** In the order in which equals are told. */
  readonly classifications: readonly ClassificationRule[];
  readonly needs: readonly Need[];
  readonly contradictions: readonly Contradiction[];
  /** In the order to act. */
  readonly advice: readonly Advice[];
  readonly bilirubin: Bilirubin;
  readonly doses: readonly DoseRule[];
  readonly feeds: { readonly switch: string; readonly tables: readonly FeedTable[] };
  readonly contacts: { readonly switch: string; readonly schedules: readonly ContactSchedule[] };
  readonly lines: ReferenceLines;
  readonly rows: ReadonlyMap<string, RowSource>;
  readonly sources: ReadonlyMap<string, string>;
  /** Missing until the reference tables are joined in: sizes are then not computed. */
  readonly growth?: Growth;
}
