// What a turn may look things up in: the published flows, the protocol, the words of each language, and who is calling.
// Built once per published version by src/conversation/book.ts; nothing in it changes while a turn is taken.

import type { AnyCase } from '../clinical/any-case.ts';
import type { Finding, Interpretation, Urgency } from '../clinical/protocol.ts';
import type { Flow } from './flow.ts';
import type { Words } from './readings/words.ts';

export interface Language {
  /** BCP-47. */
  readonly tag: string;
  /** Its name in its own words. */
  readonly name: string;
  readonly words: Words;
  /** Command -> the words that give it, lower case. */
  readonly keywords: ReadonlyMap<string, Command>;
}

/** What a worker may ask for at any moment, by a word of her language. */
export type Command =
  | 'new-baby'
  | 'contact'
  | 'recheck'
  | 'why'
  | 'back'
  | 'more'
  | 'menu'
  | 'pause'
  | 'go-on'
  | 'explain'
  | 'nurse'
  | 'language'
  | 'list';

/** Amount for each kilogram or for a band of weights, and the most that is ever given. */
export interface DoseBasis {
  readonly perKg?: number;
  readonly atMost?: number;
  readonly ceiling?: { readonly amount: number; readonly perKg: number };
}

/** Plausible ranges of the baby's own fields, from the protocol's data. */
export interface FieldRange {
  readonly low: number;
  readonly high: number;
  readonly decimals: number;
  readonly unit: string;
}

export interface Book {
  readonly version: string;
  /** The flow that each beginning starts: a new baby, a later contact, a second look. */
  readonly flowFor: Readonly<Record<'new-baby' | 'contact' | 'recheck', string>>;
  readonly flows: ReadonlyMap<string, Flow>;
  readonly findings: ReadonlyMap<string, Finding>;
  readonly ranges: Readonly<Record<'gestation' | 'weight' | 'age-days', FieldRange>>;
  readonly interpret: (aCase: AnyCase) => Interpretation;
  /** Findings and fields at which this case contradicts itself. */
  readonly contradicted: (aCase: AnyCase) => readonly string[];
  /** Advice keys of one classification where it is so urgent, in the order to act. */
  readonly adviceOf: (classification: string, urgency: Urgency) => readonly string[];
  /** Codes of the guidelines that rows of the protocol come from, each once. */
  readonly sourcesOf: (rows: readonly string[]) => readonly string[];
  /** Advice that is said only to workers who may give injections. */
  readonly isForAuthorised: (advice: string) => boolean;
  /** How a row of the dose tables comes to its amount. */
  readonly doseBasis: (drug: string, row: string) => DoseBasis | undefined;
  /** Classifications that only gather signs which others name; never said to the worker by themselves. */
  readonly isBox: (classification: string) => boolean;
  /** Some rule asks whether an earlier look gave it. */
  readonly isAskedAgain: (classification: string) => boolean;
  /** Languages that may be served, base language first. */
  readonly languages: readonly Language[];
  /** True when the base language has a message with this key. */
  readonly has: (key: string) => boolean;
}

/** Who is calling, from the roster. */
export interface Caller {
  readonly phone: string;
  /** Id of the message that is answered, the same each time it is delivered; without one, its instant stands for it. */
  readonly message?: string;
  readonly facility: string;
  readonly facilityName: string;
  readonly zone: string;
  readonly nurse: string;
  readonly language: string;
  readonly mayInject: boolean;
  /** The other workers of her facility, to whom a baby may be handed over. */
  readonly colleagues?: readonly { readonly phone: string; readonly name: string }[];
}

export function languageOf(book: Book, tag: string): Language {
  const language = book.languages.find((one) => one.tag === tag) ?? book.languages[0];
  if (language === undefined) throw new Error('The book holds no language. Put at least locales/en in place and load again.');
  return language;
}
