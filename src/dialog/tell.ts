// What is said at once about the answer that just came: what it means and what to do, before the next question.

import type { Case, Classification, Interpretation } from '../clinical/protocol.ts';
import type { Book } from './book.ts';
import { durationPhrase, phraseOf, reasonsFor } from './phrases.ts';
import { type Say, say } from './reply.ts';
import { isRoutine } from './readings/swapped.ts';

/** Classifications that speak for themselves only in the result. */
const saidInResult = new Set(['well-baby', 'normal-variant']);
const advicePerAnswer = 2;
/** Said with its time instead. */
const lookAgain = 'advice.look-again';

/** Sentences about what is new since the answer before, most urgent first. */
export function tellNew(before: Interpretation, after: Interpretation, values: Case['findings'], book: Book): Say[] {
  const known = new Set(before.classifications.map(mark));
  const fresh = after.classifications.filter((one) => !known.has(mark(one)) && !book.isBox(one.id));
  const told = fresh.filter((one) => !saidInResult.has(one.id)).flatMap((one) => tellOne(one, before, book));
  const variants = newVariants(before, after, book);
  if (told.length === 0 && variants.length === 0 && allRoutine(values, book)) return [say('told.all-normal')];
  return variants.length === 0 ? told : [...told, say('told.variant', { signs: variants })];
}

/** A classification is news again when it became more urgent or gained a reason. */
function mark(one: Classification): string {
  return `${one.id} ${one.urgency} ${one.because.map((b) => b.finding).join(' ')}`;
}

function tellOne(one: Classification, before: Interpretation, book: Book): Say[] {
  const had = before.classifications.find((other) => other.id === one.id);
  const isRaised = had === undefined || had.urgency !== one.urgency;
  const fresh = one.because.filter((b) => isRaised || !had.because.some((old) => old.finding === b.finding));
  const reasons = (fresh.length > 0 ? fresh : one.because).flatMap((because) => phraseOf(because, book) ?? []);
  const advice = book.adviceOf(one.id).filter((each) => each !== lookAgain).slice(0, advicePerAnswer).map((key) => say(key));
  const when = one.recheck ?? one.within;
  const again = when === undefined ? [] : [say(one.recheck === undefined ? 'told.within' : 'told.again', { time: durationPhrase(when) })];
  const own = `told.${one.id}`;
  const key = one.urgency === 'urgent' ? 'told.urgent' : book.has(own) ? own : 'told.found';
  return [say(key, { reasons, name: say(`classifications.${one.id}`) }), ...advice, ...again];
}

function newVariants(before: Interpretation, after: Interpretation, book: Book): Say[] {
  const because = (one: Interpretation) => one.classifications.filter((c) => c.id === 'normal-variant').flatMap((c) => c.because);
  const had = new Set(because(before).map((b) => b.finding));
  const fresh = because(after).filter((b) => !had.has(b.finding));
  return fresh.length === 0 ? [] : reasonsFor([{ id: 'normal-variant', urgency: 'routine', because: fresh, rows: [] }], book);
}

/** Measures, each in its normal band; a value that could not be had is not normal. */
function allRoutine(values: Case['findings'], book: Book): boolean {
  const measures = Object.entries(values).flatMap(([of, value]) => {
    const finding = book.findings.get(of);
    return finding?.kind === 'number' || finding?.kind === 'count' ? [{ finding, value }] : [];
  });
  return measures.length > 0 && measures.every(({ finding, value }) => typeof value === 'number' && isRoutine(value, finding));
}
