// The texts of a referral, by who is asked: the question with its digits to the receiving side and to the worker; to the nurse
// and the coordinators that nobody confirms it, and whom to ring. Next: due-referral.ts, which says when.

import type { Case, Interpretation } from '../../clinical/protocol.ts';
import { reasonsFor } from '../../dialog/phrases.ts';
import { digitOf, type ReferralQuestion, referralQuestion } from '../../dialog/referral-question.ts';
import { type Say, say } from '../../dialog/reply.ts';
import { measure } from '../../messages/segments.ts';
import type { Asked } from '../../on-call/follow-up.ts';
import type { WorkParts } from '../due-parts.ts';
import { nurseFor, type Recipient, recipient, textTo } from '../follow-up-parts.ts';
import { babyNamed, clockTime, placeNamed, whoIs } from '../naming.ts';
import type { DueWork, Entry, ReferralRecord, TextEntry } from '../records.ts';
import { answersShown } from './referral-words.ts';

interface When {
  /** Of the ladder; part of the key of each text. */
  readonly step: number;
  readonly urgent: boolean;
  readonly at: number;
}

/** Nobody twice. Where the receiving side has no number, the worker is asked in its place; where nobody there is on call, as well. */
export function askReferral(
  work: DueWork,
  referral: ReferralRecord,
  asks: readonly Asked[],
  { step, urgent, at }: When,
  parts: WorkParts,
): Entry[] {
  const question = referralQuestion(referral.state);
  if (question === null) return [];
  const receiving = asks.includes('receiving') ? receivingSide(referral, parts) : { to: null, isOnCall: true };
  const asksWorker = asks.includes('worker') || (asks.includes('receiving') && (receiving.to === null || !receiving.isOnCall));
  const worker = asksWorker ? [recipient(work.baby?.worker ?? referral.worker, parts)] : [];
  const asked = distinct([...(receiving.to === null ? [] : [receiving.to]), ...worker]);
  const nurse = asks.includes('nurse') ? nurseFor(referral.facility, parts.now, parts) : null;
  const coordinators = asks.includes('coordinator') ? parts.roster.coordinators(referral.facility) : [];
  const told = distinct([...(nurse === null ? [] : [nurse]), ...coordinators]);
  const values = valuesOf(work, referral, at, parts);
  return [
    ...asked.map((to) =>
      textTo(
        to,
        { key: `asked:${work.key}:${step}:${to.phone}`, at, urgent, baby: referral.baby },
        'verbatim',
        { text: questionText(question, values, to, parts) },
        parts,
      ),
    ),
    ...told.map((to) =>
      textTo(
        to,
        { key: `told:${work.key}:${step}:${to.phone}`, at, urgent, baby: referral.baby },
        `referral.unconfirmed.${unconfirmed[question.name]}`,
        values,
        parts,
      ),
    ),
  ];
}

/** A refusal is followed by visits; once the family is asked whether they went after all, it is their leaving that is not confirmed. */
const unconfirmed = { left: 'left', 'gone-after-all': 'left', arrived: 'arrived', outcome: 'outcome' } as const;

/** "7FK girl 5 h: left for Mto Hospital? Reply like 7FK 1: 1 left, 2 not yet, 3 family refuses, 4 died" */
export function questionText(
  question: ReferralQuestion,
  values: Readonly<Record<string, Say | string | number>> & { readonly code: string },
  { language }: Pick<Recipient, 'language'>,
  { speak }: Pick<WorkParts, 'speak'>,
): string {
  const [first = 'left'] = question.answers;
  const digits = { code: values.code, digit: Number(digitOf(first)), answers: answersShown(question) };
  return `${speak(language, `referral.ask.${question.name}`, values)} ${speak(language, 'referral.reply', digits)}`;
}

/** Whoever is on call where the baby is sent, else its number to ring; no number: the place is not on the roster. */
export function receivingSide(
  { receiving }: Pick<ReferralRecord, 'receiving'>,
  { roster, now }: WorkParts,
): { to: Recipient | null; isOnCall: boolean } {
  const facility = receiving === null ? undefined : roster.facility(receiving);
  if (facility === undefined) return { to: null, isOnCall: false };
  const own = roster.onCall(facility.id, now).find((person) => person.facility === facility.id);
  return { to: own ?? recipient(facility.nurse, { roster }), isOnCall: own !== undefined };
}

/** Segments that the news of a baby on its way may take; a script of 16 bits needs more for the same. */
const mostSegments = { 'gsm-7': 2, 'ucs-2': 4 } as const;

/** Tells the receiving side who comes and why, as many reasons as fit. */
export function announceComing(work: DueWork, referral: ReferralRecord, parts: WorkParts): TextEntry[] {
  const { to } = receivingSide(referral, parts);
  if (to === null) return [];
  const values = { ...valuesOf(work, referral, parts.now, parts), digit: Number(digitOf('arrived')) };
  const about = { key: `coming:${referral.key}`, at: parts.now, urgent: referral.urgency === 'urgent', baby: referral.baby };
  const reasons = reasonsOf(referral, parts);
  const written = (kept: number): TextEntry =>
    textTo(
      to,
      about,
      'referral.coming',
      { ...values, reasons: kept < reasons.length ? [...reasons.slice(0, kept), more(reasons.length - kept)] : reasons },
      parts,
    );
  for (let kept = reasons.length; kept > 1; kept -= 1) {
    const text = written(kept);
    const { alphabet, segments } = measure(text.text);
    if (segments <= mostSegments[alphabet]) return [text];
  }
  return [written(1)];
}

function more(count: number): Say {
  return say('verbatim', { text: `+${count}` });
}

function reasonsOf({ body }: ReferralRecord, { published: { book } }: WorkParts): Say[] {
  const { interpretation } = body as { readonly case: Case; readonly interpretation: Interpretation };
  const sent = interpretation.classifications.filter(({ urgency }) => urgency === 'urgent' || urgency === 'refer');
  const own = sent.filter(({ id }) => !book.isBox(id));
  return reasonsFor(own.length > 0 ? own : sent, book);
}

export function valuesOf(work: Pick<DueWork, 'baby'>, referral: ReferralRecord, at: number, { roster }: Pick<WorkParts, 'roster'>) {
  const facility = roster.facility(referral.facility);
  const receiving = referral.receiving === null ? undefined : roster.facility(referral.receiving);
  return {
    code: referral.code,
    baby: babyNamed(whoIs(work.baby, referral), at),
    facility: facility?.name ?? '',
    place: placeNamed(referral.receiving, roster),
    phone: receiving?.nurse ?? '',
    worker: work.baby?.worker ?? referral.worker,
    time: referral.leftAt === null ? '' : clockTime(referral.leftAt, facility),
  };
}

function distinct(recipients: readonly Recipient[]): Recipient[] {
  return [...new Map(recipients.map(({ phone, language }) => [phone, { phone, language }])).values()];
}
