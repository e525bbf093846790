// What the answers to due work share: how a reminder is sent, sent again, and given up. Next: follow-up-work.ts.

import type { SayableValue } from '../messages/catalogue.ts';
import { type FollowUpParts, recipient, textTo, whenToText } from './follow-up-parts.ts';
import { babyNamed } from './naming.ts';
import type { BabyRecord, DueWork, Entry, WorkAnswer } from './records.ts';

export type WorkParts = FollowUpParts & { readonly now: number };

export const isOver: WorkAnswer = { entries: [], next: { kind: 'done' } };

/** Nothing is written before its time: what becomes of the baby until then decides whether anything is. */
export function heldUntil(at: number): WorkAnswer {
  return { entries: [], next: { kind: 'held', at } };
}

/** Asked for, and asked for once more; then it is missed and only stands on the list. */
const mostReminders = 2;

/**
 * One text to the worker who follows the baby now.
 *
 * Takes    graceMinutes: how long it is waited for. isNear: never held by quiet hours.
 */
export function remind(
  work: DueWork,
  baby: BabyRecord,
  message: string,
  values: Readonly<Record<string, SayableValue>>,
  { graceMinutes, isNear }: { readonly graceMinutes: number; readonly isNear: boolean },
  parts: WorkParts,
): WorkAnswer {
  const { now } = parts;
  if (work.times >= mostReminders) return { entries: [], next: { kind: 'missed' } };
  const at = whenToText(now, baby.facility, isNear, parts);
  if (at > now) return heldUntil(at);
  const key = work.times === 0 ? message : `${message}-again`;
  const said = { code: baby.code, baby: babyNamed(baby, at), ...values };
  const text: Entry = textTo(
    recipient(baby.worker, parts),
    { key: `text:${work.key}:${work.times}`, at, urgent: false, baby: baby.id },
    key,
    said,
    parts,
  );
  return { entries: [text], next: { kind: 'again', at: whenToText(at + graceMinutes * 60_000, baby.facility, isNear, parts) } };
}
