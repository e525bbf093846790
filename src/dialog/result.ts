// The result of an examination as things to say: how urgent, why, what to do now, what to tell the mother, when to look
// again, in that order. What does not fit on the first page follows on the next ones.

import type { AnyCase } from '../clinical/any-case.ts';
import { known } from '../clinical/computed.ts';
import { contactToCome, type NextContact } from '../clinical/contacts.ts';
import { minutesOf } from '../clinical/duration.ts';
import type { Classification, Interpretation } from '../clinical/protocol.ts';
import type { Book, Caller } from './book.ts';
import { daysText, whenText } from './dates.ts';
import { doseLines } from './dose-lines.ts';
import type { Standing } from './lookup.ts';
import { babyPhrase, gestationText, phraseOf, reasonsFor, signsIn } from './phrases.ts';
import { type Result, type Say, say } from './reply.ts';
import type { Examination } from './session.ts';

const minute = 60_000;
const hour = 60 * minute;

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
  // A well baby is well for all that was looked at: there is nothing to name, and WHY tells what was measured.
  const hasReasons = urgency !== 'incomplete' && urgency !== 'routine';
  const decided = hasReasons ? reasonsFor(named(interpretation, [urgency], book), book) : [];
  const others = interpretation.classifications.filter(
    (one) => one.urgency !== urgency && !spokenOtherwise.has(one.id) && !book.isBox(one.id),
  );
  const variants = interpretation.classifications
    .filter((one) => one.id === 'normal-variant')
    .map((one) => say('result.normal-variants', { signs: signsIn(one.because, book) }));
  const { zone } = caller;
  const seenAt = examination.finishedAt ?? examination.startedAt;
  const again = againLines(interpretation, seenAt, zone, book);
  return {
    head: [headline(examination, standing, decided, book)],
    lines: [
      ...missingLines(interpretation, book),
      ...(urgency === 'routine' ? [...variants, ...again] : []),
      ...adviceLines(standing, book),
      ...doseLines(standing, book),
      ...others.map((one) => foundLine(one, book)),
      ...(urgency === 'routine' ? [] : [...variants, ...again]),
      ...contactLines(examination, standing, seenAt, zone),
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
  const values = {
    code: examination.code,
    baby: babyPhrase(gathered.case),
    size: sizePhrases(gathered.case, interpretation, book),
    reasons,
  };
  const key = `result.${interpretation.urgency}`;
  return say(interpretation.urgency === 'urgent' ? 'result.urgent-final' : key, values);
}

/** What is not known of it is said to be: a baby that nobody weighed may be too small to be called well. */
function sizePhrases({ ageHours, birthWeightGrams, weightGrams, gestation }: AnyCase, { computed }: Interpretation, book: Book): Say[] {
  const [atBirth, now] = [known(birthWeightGrams), known(weightGrams)];
  const weightNow = now === null ? say('result.not-known.weight') : say('values.weightGrams', { value: now });
  return [
    ...(known(ageHours) === null ? [say('result.not-known.age')] : []),
    atBirth === null ? weightNow : say('values.birthWeightGrams', { value: atBirth }),
    gestation ? say('values.gestation', { value: gestationText(gestation) }) : say('result.not-known.gestation'),
    ...(classOf(computed.sizeForGestation) === 'appropriate' && book.has('values.size-appropriate')
      ? [say('values.size-appropriate')]
      : []),
  ];
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
function againLines(interpretation: Interpretation, seenAt: number, zone: string, book: Book): Say[] {
  const byTime = new Map<string, { readonly kind: 'again' | 'within'; readonly minutes: number; readonly ones: Classification[] }>();
  for (const one of interpretation.classifications) {
    const time = one.recheck ?? one.within;
    if (time === undefined || one.urgency === 'urgent' || book.isBox(one.id)) continue;
    const kind = one.recheck === undefined ? 'within' : 'again';
    const key = `${kind} ${time}`;
    byTime.set(key, { kind, minutes: minutesOf(time), ones: [...(byTime.get(key)?.ones ?? []), one] });
  }
  return [...byTime.values()]
    .sort((a, b) => a.minutes - b.minutes)
    .map(({ kind, minutes, ones }) =>
      say(`result.${kind}`, {
        when: whenText(seenAt + minutes * minute, seenAt, zone),
        what: ones.flatMap((one) => (one.id === 'extra-look' ? reasonsFor([one], book) : [say(`classifications.${one.id}`)])),
      }),
    );
}

/** The days of the next contact, which the worker is reminded of. */
function contactLines({ startedAt }: Examination, { interpretation, gathered }: Standing, seenAt: number, zone: string): Say[] {
  const { ageHours } = gathered.case;
  if (ageHours === null || ageHours === undefined) return [say('advice.next-contact')];
  const bornAt = seenAt - ageHours * hour;
  const contacts = (interpretation.computed.nextContacts ?? []) as readonly NextContact[];
  const next = contactToCome(contacts, (startedAt - bornAt) / hour);
  if (next === undefined) return [];
  return [say('result.next-contact', { days: daysText(bornAt + next.fromHours * hour, bornAt + next.toHours * hour, zone) })];
}
