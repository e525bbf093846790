// How a worker answers: all normal and asked one by one, all normal in as few texts as it fits, everything marked, or by chance
// from how often each sign is met. What to send for a value is the catalogue's own example. Next: walk.ts.

import { openFields } from '../dialog/ask.ts';
import type { Book } from '../dialog/book.ts';
import { type MarkStep, moreDigit, type ReadField, regionsOf, type Step } from '../dialog/flow.ts';
import type { Gathered } from '../dialog/gather.ts';
import { type Catalogue, type Catalogues, findCatalogue, say } from '../messages/catalogue.ts';
import { alphabetOf } from '../messages/gsm7.ts';
import { measure } from '../messages/segments.ts';
import type { Manner } from './walk.ts';

export interface Words {
  readonly catalogues: Catalogues;
  readonly language: string;
}

/** How often each is met: signs by `finding` or `finding=option`, values by finding or field, as texts to send. */
export interface Prevalence {
  /** Of a sign that is not named. */
  readonly otherwise: number;
  readonly signs: Readonly<Record<string, number>>;
  /** Shares of one field add up to at most 1; the rest sends the example. */
  readonly values: Readonly<Record<string, readonly { readonly send: string; readonly share: number }[]>>;
}

const none = '0';
const notKnown = '-';

/** Nothing is marked, every value is the example of its field, and each question is answered by itself. */
export function allNormal(words: Words): Manner {
  return {
    opening: '',
    answer: (step, { gathered }) => (step.kind === 'mark' ? none : values(step, gathered, (field) => exampleOf(field, words))),
  };
}

/** The same baby, as much of it in each text as fits one segment: values by their labels, regions by their names. */
export function quickest(words: Words, book: Book): Manner {
  const catalogue = findCatalogue(words.catalogues, words.language);
  const flow = book.flows.get(book.flowFor['new-baby']);
  const asked = (flow?.steps ?? []).filter(({ opened }) => !opened);
  const pieces = asked.flatMap((step) => {
    if (step.kind === 'read' && step.onlyIf.length === 0)
      return step.fields.filter(({ optional }) => !optional).map((field) => labelled(field, words, catalogue));
    if (step.kind !== 'mark' || step.onlyIf.length > 0) return [];
    const names = regionsOf(step).map((region) => shortest(catalogue?.regions.get(region)));
    return names.includes(null) ? [] : [names.map((name) => `${name} ${none}`).join(' ')];
  });
  const opening = fitting(pieces, shortest(catalogue?.keywords.get('new-baby')) ?? '');
  const normal = allNormal(words);
  return { ...normal, opening };
}

/** Everything is marked and every further region opened: the longest way that answers alone can lead. */
export function allMarked(words: Words): Manner {
  const normal = allNormal(words);
  return { ...normal, answer: (step, standing) => (step.kind === 'mark' ? marksOf(step, () => true) : normal.answer(step, standing)) };
}

/** Takes  chance: at least 0 and below 1, anew each time. */
export function byChance(words: Words, prevalence: Prevalence, chance: () => number): Manner {
  const sends = (field: ReadField): string => {
    let drawn = chance();
    for (const { send, share } of prevalence.values[field.of] ?? []) {
      if (drawn < share) return send;
      drawn -= share;
    }
    return exampleOf(field, words);
  };
  const isMet = (mark: string): boolean => {
    return chance() < (prevalence.signs[mark] ?? prevalence.otherwise);
  };
  return {
    opening: '',
    answer: (step, { gathered }) => (step.kind === 'mark' ? marksOf(step, isMet) : values(step, gathered, sends)),
  };
}

/** Of choices that exclude each other the first one made. */
function marksOf(step: MarkStep, isMade: (mark: string) => boolean): string {
  const chosen = new Set<string>();
  const made = step.marks.flatMap(({ id, sets }, at) => {
    if (!isMade(id) || (sets !== null && chosen.has(sets.of))) return [];
    if (sets !== null) chosen.add(sets.of);
    return [String(at + 1)];
  });
  if (step.more !== undefined && isMade(`more:${step.more}`)) made.push(moreDigit);
  return made.length === 0 ? none : made.join(' ');
}

function values(step: Step, gathered: Gathered, sends: (field: ReadField) => string): string {
  if (step.kind === 'again') return sends({ of: step.of, optional: false, options: [] });
  const wanted = openFields(step, { gathered }).filter(({ optional }) => !optional);
  return wanted.length === 0 ? notKnown : wanted.map(sends).join(' ');
}

/** A field without an example is one of options: the first of them. */
function exampleOf({ of, options }: ReadField, { catalogues, language }: Words): string {
  const key = `examples.${of}`;
  const has = catalogues.byTag.get(catalogues.base)?.messages.has(key) ?? false;
  if (has) return say(catalogues, language, key);
  return options.length > 0 ? '1' : notKnown;
}

function labelled(field: ReadField, words: Words, catalogue: Catalogue | undefined): string {
  const label = shortest(catalogue?.labels.get(field.of));
  return label === null ? exampleOf(field, words) : `${label}${exampleOf(field, words)}`;
}

/** In the cheap alphabet where there is one: a name with a letter outside it makes the whole text dearer. */
function shortest(names: readonly string[] = []): string | null {
  const cheap = names.filter((name) => alphabetOf(name) === 'gsm-7');
  const [first, ...others] = cheap.length > 0 ? cheap : names;
  return first === undefined ? null : others.reduce((best, one) => (one.length < best.length ? one : best), first);
}

/** As many pieces, in their order, as one segment holds after the word that begins. */
function fitting(pieces: readonly string[], before: string): string {
  const kept: string[] = [];
  for (const piece of pieces) {
    if (measure([before, ...kept, piece].join(' ')).segments > 1) break;
    kept.push(piece);
  }
  return kept.join(' ');
}
