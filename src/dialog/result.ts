// The result of an examination as things to say: how urgent, why, what to do now, what to tell the mother, when to look
// again, in that order. What does not fit on the first page follows on the next ones.

import type { Classification, Interpretation } from '../clinical/protocol.ts';
import type { Book, Caller } from './book.ts';
import { doseLines } from './dose-lines.ts';
import type { Standing } from './lookup.ts';
import { babyPhrase, durationPhrase, gestationText, phraseOf, reasonsFor, signsIn } from './phrases.ts';
import { type Result, type Say, say } from './reply.ts';
import type { Examination } from './session.ts';

/** Comes up as soon as the baby is urgent, before anything else is asked. */
export function urgentResult(standing: Standing, caller: Caller, book: Book): Result {
  const { interpretation, gathered } = standing;
  const reasons = reasonsFor(named(interpretation, ['urgent'], book), book);
  return {
    head: [say('result.urgent', { reasons, baby: babyPhrase(gathered.case) })],
    lines: adviceLines(standing, book),
    foot: [say('result.nurse-told', { nurse: caller.nurse })],
    segments: 2,
  };
}

/** Advice that the result says in its own place: the headline, the normal variants, when to look again. */
const saidElsewhere: ReadonlySet<string> = new Set([
  'advice.refer-now',
  'advice.mother-baby-is-well',
  'advice.normal-tell-mother',
  'advice.look-again',
  'advice.next-contact',
]);

/** Said with an urgent result by its headline and by the nurse's number. */
const saidByUrgency: ReadonlySet<string> = new Set(['advice.call-nurse-today', 'advice.refer-for-review']);

function adviceLines({ interpretation: { advice, urgency }, mayInject }: Standing, book: Book): Say[] {
  const isSaid = (key: string): boolean =>
    !saidElsewhere.has(key) && !(urgency === 'urgent' && saidByUrgency.has(key)) && (mayInject || !book.isForAuthorised(key));
  return advice.filter(isSaid).map((key) => say(key));
}

export function finalResult(examination: Examination, standing: Standing, caller: Caller, book: Book): Result {
  const { interpretation } = standing;
  const { urgency } = interpretation;
  const decided = urgency === 'incomplete' ? [] : reasonsFor(named(interpretation, [urgency], book), book);
  const others = interpretation.classifications.filter(
    (one) => one.urgency !== urgency && !spokenOtherwise.has(one.id) && !book.isBox(one.id),
  );
  const variants = interpretation.classifications
    .filter((one) => one.id === 'normal-variant')
    .map((one) => say('result.normal-variants', { signs: signsIn(one.because, book) }));
  const again = againLines(interpretation, book);
  return {
    head: [headline(examination, standing, decided, book)],
    lines: [
      ...missingLines(interpretation, book),
      ...(urgency === 'routine' ? [...variants, ...again] : []),
      ...adviceLines(standing, book),
      ...doseLines(standing, book),
      ...others.map((one) => foundLine(one, book)),
      ...(urgency === 'routine' ? [] : [...variants, ...again]),
      ...contactLines(interpretation),
      say('result.caution'),
    ],
    foot:
      urgency === 'urgent'
        ? [say('result.nurse-told', { nurse: caller.nurse })]
        : urgency === 'refer'
          ? [say('result.ring-nurse', { nurse: caller.nurse })]
          : [],
    segments: urgency === 'routine' ? 1 : 2,
  };
}

/** Named in the headline, in their own line, or in what to look at again. */
const spokenOtherwise = new Set(['well-baby', 'normal-variant', 'extra-look']);

function headline(examination: Examination, { interpretation, gathered }: Standing, reasons: readonly Say[], book: Book): Say {
  const { birthWeightGrams, gestation } = gathered.case;
  const size: Say[] = [];
  if (birthWeightGrams !== null && birthWeightGrams !== undefined) size.push(say('values.birthWeightGrams', { value: birthWeightGrams }));
  if (gestation !== null && gestation !== undefined) size.push(say('values.gestation', { value: gestationText(gestation) }));
  const sizeClass = classOf(interpretation.computed.sizeForGestation);
  if (sizeClass === 'appropriate' && book.has('values.size-appropriate')) size.push(say('values.size-appropriate'));
  const values = { code: examination.code, baby: babyPhrase(gathered.case), size, reasons };
  const key = `result.${interpretation.urgency}`;
  return say(interpretation.urgency === 'urgent' ? 'result.urgent-final' : key, values);
}

function classOf(size: unknown): string | null {
  return typeof size === 'object' && size !== null && 'class' in size ? String(size.class) : null;
}

/** Classifications of the given urgencies that the worker is told of by name. When only boxes are left, they are. */
export function named(interpretation: Interpretation, urgencies: readonly string[], book: Book): Classification[] {
  const all = interpretation.classifications.filter((one) => urgencies.includes(one.urgency));
  const own = all.filter((one) => !book.isBox(one.id));
  return own.length > 0 ? own : all;
}

function missingLines(interpretation: Interpretation, book: Book): Say[] {
  if (interpretation.missing.length === 0) return [];
  const what = interpretation.missing.map((of) => say(book.has(`fields.${of}`) ? `fields.${of}` : `findings.${of}`));
  return [say('result.not-assessed', { what })];
}

function foundLine(one: Classification, book: Book): Say {
  return say('told.found', {
    reasons: one.because.flatMap((because) => phraseOf(because, book) ?? []),
    name: say(`classifications.${one.id}`),
  });
}

/** When to look again, soonest first, one line for all that is due at the same time. */
function againLines(interpretation: Interpretation, book: Book): Say[] {
  const byTime = new Map<string, Classification[]>();
  for (const one of interpretation.classifications) {
    const time = one.recheck ?? one.within;
    if (time === undefined || one.urgency === 'urgent' || book.isBox(one.id)) continue;
    const key = `${one.recheck === undefined ? 'within' : 'again'} ${time}`;
    byTime.set(key, [...(byTime.get(key) ?? []), one]);
  }
  return [...byTime]
    .sort(([a], [b]) => minutesOf(a) - minutesOf(b))
    .map(([key, ones]) => {
      const [kind = '', time = ''] = key.split(' ');
      return say(`result.${kind}`, {
        time: durationPhrase(time),
        what: ones.flatMap((one) => (one.id === 'extra-look' ? reasonsFor([one], book) : [say(`classifications.${one.id}`)])),
      });
    });
}

function minutesOf(key: string): number {
  const [, days = '0', hours = '0', minutes = '0'] = /P(?:(\d+)D)?(?:T(?:(\d+)H)?(?:(\d+)M)?)?$/.exec(key) ?? [];
  return Number(days) * 1440 + Number(hours) * 60 + Number(minutes);
}

function contactLines(interpretation: Interpretation): Say[] {
  const contacts = interpretation.computed.nextContacts;
  const first: unknown = Array.isArray(contacts) ? contacts[0] : undefined;
  if (typeof first !== 'object' || first === null || !('fromHours' in first) || !('toHours' in first)) return [say('advice.next-contact')];
  return [
    say('result.next-contact', { from: Math.round(Number(first.fromHours) / 24) + 1, to: Math.round(Number(first.toHours) / 24) + 1 }),
  ];
}
