// A family that refused is seen daily: the worker is reminded each day, until the baby leaves after all or the days are over.
// Then the nurse and the coordinators hear that it still has not gone. Next: due-referral.ts.

import { digitOf } from '../../dialog/referral-question.ts';
import { heldUntil, isOver, type WorkParts } from '../due-parts.ts';
import { nurseFor, recipient, textTo, whenToText } from '../follow-up-parts.ts';
import type { DueWork, ReferralRecord, TextEntry, WorkAnswer } from '../records.ts';
import { valuesOf } from './ask-referral.ts';

const minute = 60_000;

export interface RefusalVisitBody {
  /** When the family refused. */
  readonly since: number;
}

export function answerRefusalVisit(work: DueWork, parts: WorkParts): WorkAnswer {
  const { referral } = work;
  if (referral?.state !== 'refused') return isOver;
  const { everyMinutes, times } = parts.published.followUp.refusalVisit;
  const { since } = work.body as RefusalVisitBody;
  const every = everyMinutes * minute;
  const day = Math.floor((parts.now - since) / every);
  const at = whenToText(parts.now, referral.facility, false, parts);
  if (at > parts.now) return heldUntil(at);
  const values = { ...valuesOf(work, referral, at, parts), digit: Number(digitOf('left')) };
  if (day > times) return { entries: stillRefused(work, referral, at, values, parts), next: { kind: 'missed' } };
  const about = { key: `text:${work.key}:${day}`, at, urgent: false, baby: referral.baby };
  const text = textTo(recipient(values.worker, parts), about, 'referral.refusal-visit', values, parts);
  return { entries: [text], next: { kind: 'again', at: whenToText(since + (day + 1) * every, referral.facility, false, parts) } };
}

function stillRefused(
  work: DueWork,
  referral: ReferralRecord,
  at: number,
  values: ReturnType<typeof valuesOf>,
  parts: WorkParts,
): TextEntry[] {
  const { facility } = referral;
  const nurse = nurseFor(facility, parts.now, parts);
  const phones = [...(nurse === null ? [] : [nurse.phone]), ...parts.roster.coordinators(facility).map(({ phone }) => phone)];
  return [...new Set(phones)].map((phone) =>
    textTo(
      recipient(phone, parts),
      { key: `told:${work.key}:${phone}`, at, urgent: false, baby: referral.baby },
      'referral.refused-still',
      values,
      parts,
    ),
  );
}
