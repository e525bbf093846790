// The words of every language, and `say`: a key and its values become text. Imports nothing of ours but this folder; a
// thing to say has the same shape as in the dialog. Never throws: a worker with a sick baby gets words, however poor.
// Written by src/authoring/read-catalogue.ts from locales/. Next: message.ts, render.ts.

import type { Alphabet } from './gsm7.ts';
import type { Message } from './message.ts';
import { type Language, render, type Value } from './render.ts';

/** One language: its messages, the words a worker may text, and the words that stand for something in an answer. */
export interface Catalogue extends Language {
  /** In the language itself. */
  readonly name: string;
  readonly alphabet: Alphabet;
  /** True: no clinician has reviewed it. */
  readonly draft: boolean;
  readonly messages: ReadonlyMap<string, Message>;
  /** Command -> its words as they are written: `back` -> BACK, B. */
  readonly keywords: ReadonlyMap<string, readonly string[]>;
  /** Meaning -> its words: `hours` -> h, hr. */
  readonly readings: ReadonlyMap<string, readonly string[]>;
  /** Finding or field -> its labels: `temperature` -> T, TEMP. */
  readonly labels: ReadonlyMap<string, readonly string[]>;
  /** Step of a flow -> the names of its body region: `belly-cord` -> BELLY, CORD. */
  readonly regions: ReadonlyMap<string, readonly string[]>;
  /** Sign, `finding` or `finding=option`, `=no` when it is not there -> its words: `feeding=well` -> FED. */
  readonly signs: ReadonlyMap<string, readonly string[]>;
}

export interface Catalogues {
  /** Tag of the language that has every message. */
  readonly base: string;
  readonly byTag: ReadonlyMap<string, Catalogue>;
}

/** One thing to say. A value may itself be a thing to say, or a list of them. */
export interface Sayable {
  readonly key: string;
  readonly values?: Readonly<Record<string, SayableValue>>;
}
export type SayableValue = string | number | Sayable | readonly Sayable[];

/** Deeper than any message goes; it ends a value that holds itself. */
const deepest = 8;

/**
 * The text of a key in a language.
 *
 * Takes    tag: BCP-47; `pt-MZ` is served by `pt` when there is no `pt-MZ`, else by the base language.
 * Returns  text; a key that is missing is said in the base language, and one that is missing there too by the last part
 *          of its name, hyphens as spaces. Values that are things to say are put into words first, a list joined with the
 *          language's `list.joiner` (else a comma and a space). A value that is missing shows the name of its place.
 * Errors   none.
 */
export function say(catalogues: Catalogues, tag: string, key: string, values?: Sayable['values']): string {
  return sayWithin(catalogues, findCatalogue(catalogues, tag), { key, ...(values && { values }) }, 0);
}

/** The catalogue that serves a language tag: the tag itself, then with fewer subtags (RFC 4647 lookup), then the base. */
export function findCatalogue(catalogues: Catalogues, tag: string): Catalogue | undefined {
  for (let range = tag; range !== ''; range = range.slice(0, Math.max(range.lastIndexOf('-'), 0))) {
    const found = catalogues.byTag.get(range);
    if (found !== undefined) return found;
  }
  return catalogues.byTag.get(catalogues.base);
}

/** The same languages without the drafts; the base stays, for it is what all others fall back to. */
export function withoutDrafts({ base, byTag }: Catalogues): Catalogues {
  return { base, byTag: new Map([...byTag].filter(([tag, catalogue]) => tag === base || !catalogue.draft)) };
}

function sayWithin(catalogues: Catalogues, language: Catalogue | undefined, { key, values }: Sayable, depth: number): string {
  const base = catalogues.byTag.get(catalogues.base);
  const speaking = language?.messages.has(key) ? language : base;
  const message = speaking?.messages.get(key);
  if (speaking === undefined || message === undefined) return lastPart(key);
  return render(message, speaking, (name) => {
    const value = values != null && Object.hasOwn(values, name) ? values[name] : undefined;
    return valueWithin(catalogues, language, value, depth);
  });
}

function valueWithin(catalogues: Catalogues, language: Catalogue | undefined, value: unknown, depth: number): Value {
  const base = catalogues.byTag.get(catalogues.base);
  if (typeof value === 'string' || typeof value === 'number') return value;
  if (Array.isArray(value)) {
    if (depth >= deepest) return undefined;
    const said = value.map((each) => valueWithin(catalogues, language, each, depth + 1));
    return said.filter((each) => each !== undefined).join(joinerOf(language) ?? joinerOf(base) ?? ', ');
  }
  if (!isSayable(value)) return undefined;
  return depth < deepest ? sayWithin(catalogues, language, value, depth + 1) : lastPart(value.key);
}

function joinerOf(language: Catalogue | undefined): string | null | undefined {
  return language?.messages.get('list.joiner')?.fixed;
}

function isSayable(value: unknown): value is Sayable {
  return typeof value === 'object' && value !== null && 'key' in value && typeof value.key === 'string';
}

function lastPart(key: string): string {
  return key.slice(key.lastIndexOf('.') + 1).replaceAll('-', ' ');
}
