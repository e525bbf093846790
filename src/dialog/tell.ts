// What is said at once about the answer that just came: what it means and what to do, before the next question.

import type { Case, Classification, Interpretation } from '../clinical/protocol.ts';
import type { Book } from './book.ts';
import { durationPhrase, phraseOf, signsIn } from './phrases.ts';
import { isRoutine } from './readings/swapped.ts';
import { type Say, say } from './reply.ts';

/** Classifications that speak for themselves only in the result. */
const saidInResult = new Set(['well-baby', 'normal-variant']);
const advicePerAnswer = 2;
/** Said with its time instead. */
const lookAgain = 'advice.look-again';

interface Meant {
  readonly interpretation: Pick<Interpretation, 'classifications'>;
}

/**
 * Sentences about what is new since the answer before. What this answer brought comes first, most urgent first; what it only
 * made worse is said when nothing new is urgent, so that the sign that was just sent is never hidden behind an older one.
 *
 * Takes    before: what it meant before is asked for only where it means something now.
 */
export function tellNew(before: Meant, after: Interpretation, values: Case['findings'], book: Book): Say[] {
  const earlier = after.classifications.length === 0 ? [] : before.interpretation.classifications;
  const had = new Map(earlier.map((one) => [one.id, one]));
  const spoken = after.classifications.filter((one) => !saidInResult.has(one.id) && !book.isBox(one.id));
  const brought = spoken.filter((one) => !had.has(one.id));
  const raised = spoken.filter((one) => had.has(one.id) && had.get(one.id)?.urgency !== one.urgency);
  const grown = spoken.flatMap((one) => withNewReasons(one, had.get(one.id)));
  const said = brought.some((one) => one.urgency === 'urgent') ? brought : [...brought, ...raised, ...grown];
  const told = said.flatMap((one) => tellOne(one, book));
  const variants = newVariants(earlier, after.classifications, said, book);
  // To one who stands beside a baby in danger, "all normal" would say too much.
  const isGood = after.urgency !== 'urgent' && allRoutine(values, book);
  if (told.length === 0 && variants.length === 0 && isGood) return [say('told.all-normal')];
  return variants.length === 0 ? told : [...told, say('told.variant', { signs: variants })];
}

/** What is no more urgent than before but has a reason more, with that reason alone: one more thing to look at again. */
function withNewReasons(one: Classification, had: Classification | undefined): Classification[] {
  if (had === undefined || had.urgency !== one.urgency || one.urgency === 'urgent') return [];
  const because = one.because.filter((reason) => !had.because.some((old) => old.finding === reason.finding));
  return because.length === 0 ? [] : [{ ...one, because }];
}

function tellOne(one: Classification, book: Book): Say[] {
  const reasons = one.because.flatMap((because) => phraseOf(because, book) ?? []);
  const advice = book
    .adviceOf(one.id, one.urgency)
    .filter((each) => each !== lookAgain && !book.isForAuthorised(each))
    .slice(0, advicePerAnswer)
    .map((key) => say(key));
  const when = one.recheck ?? one.within;
  const again = when === undefined ? [] : [say(one.recheck === undefined ? 'told.within' : 'told.again', { time: durationPhrase(when) })];
  const own = `told.${one.id}`;
  const key = one.urgency === 'urgent' ? 'told.urgent' : book.has(own) ? own : 'told.found';
  return [say(key, { reasons, name: say(`classifications.${one.id}`) }), ...advice, ...again];
}

/** What was seen and is normal, but for what was said to be looked at again. */
function newVariants(
  before: readonly Classification[],
  after: readonly Classification[],
  said: readonly Classification[],
  book: Book,
): Say[] {
  const because = (all: readonly Classification[]) => all.filter((one) => one.id === 'normal-variant').flatMap((one) => one.because);
  const had = new Set([...because(before), ...said.flatMap((one) => one.because)].map((b) => b.finding));
  const fresh = because(after).filter((b) => !had.has(b.finding));
  return signsIn(fresh, book);
}

/** Measures that may be other than normal, each in its normal band; a value that could not be had is not normal. */
function allRoutine(values: Case['findings'], book: Book): boolean {
  const measures = Object.entries(values).flatMap(([of, value]) => {
    const finding = book.findings.get(of);
    return (finding?.kind === 'number' || finding?.kind === 'count') && finding.bands.length > 1 ? [{ finding, value }] : [];
  });
  return measures.length > 0 && measures.every(({ finding, value }) => typeof value === 'number' && isRoutine(value, finding));
}
