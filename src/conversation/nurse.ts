// What a nurse texts about an alert: its code alone takes it, the code and words advise the worker, the code and DONE close it.
// The worker is told at each step. Refusal is a value: an unknown code, an alert that another nurse has.

import { normalise } from '../dialog/readings/tokens.ts';
import type { SayableValue } from '../messages/catalogue.ts';
import type { AlertRecord, Entry, Person, Register, Roster } from './ports.ts';

/** Digit, letter, letter: the form of codeOf in src/dialog/examination.ts. */
const codeThenWords = /^([2-9][a-z]{2})\b[\s:,.-]*(.*)$/su;

export interface NurseParts {
  readonly register: Register;
  readonly roster: Roster;
  /** The words of a key in a person's language. */
  readonly speak: (language: string, key: string, values: Readonly<Record<string, SayableValue>>) => string;
  /** Words of the language that close an alert, lower case. */
  readonly isDone: (language: string, text: string) => boolean;
}

export function alertCodeIn(text: string): { readonly code: string; readonly words: string } | null {
  const match = codeThenWords.exec(text.trim().toLowerCase());
  if (match === null) return null;
  const [, code = '', rest = ''] = match;
  return {
    code: code.toUpperCase(),
    words:
      rest === ''
        ? ''
        : text
            .trim()
            .slice(text.trim().length - rest.length)
            .trim(),
  };
}

/**
 * The answer to the nurse; null when the text speaks of no alert. Of one who examines babies too, a code that no open alert has
 * is no code: `5HR` may be the age of a baby.
 */
export async function answerNurse(nurse: Person, text: string, messageId: string, now: number, parts: NurseParts): Promise<string | null> {
  const said = alertCodeIn(text);
  if (said === null) return null;
  const [alert] = await parts.register.findAlerts(said.code);
  const speak: Speak = (key, values) => parts.speak(nurse.language, key, { code: said.code, ...values });
  if (alert === undefined) return nurse.roles.includes('worker') ? null : speak('alert.unknown', {});
  if (alert.state === 'taken' && alert.takenBy !== nurse.phone)
    return speak('alert.already', { nurse: nameOf(alert.takenBy, parts.roster) });
  const saysDone = parts.isDone(nurse.language, normalise(said.words).replace(/[.,!]+$/, ''));
  if (saysDone || alert.state === 'open') {
    const moved = saysDone ? await close(alert, nurse, now, parts) : await take(alert, nurse, now, parts);
    if (!moved) return sayWhoHasIt(alert, parts, speak);
    if (saysDone) return speak('alert.closed', {});
  }
  if (said.words === '') return speak('alert.taken', { worker: alert.worker });
  await parts.register.record([toWorker(alert, `advice:${messageId}`, 'alert.advice-worker', { text: said.words }, now, parts)]);
  return speak('alert.advice-sent', {});
}

/** False: somebody else moved it first. */
async function take(alert: AlertRecord, nurse: Person, now: number, parts: NurseParts): Promise<boolean> {
  const told = toWorker(
    alert,
    `taken:${alert.key}:${nurse.phone}`,
    'alert.taken-worker',
    { nurse: nurse.name, phone: nurse.phone },
    now,
    parts,
  );
  return (await parts.register.moveAlert(alert.key, 'open', 'taken', nurse.phone, now, [told])) !== null;
}

/** False: somebody else moved it first. */
async function close(alert: AlertRecord, nurse: Person, now: number, parts: NurseParts): Promise<boolean> {
  const told = toWorker(alert, `closed:${alert.key}`, 'alert.closed-worker', {}, now, parts);
  return (await parts.register.moveAlert(alert.key, alert.state, 'closed', nurse.phone, now, [told])) !== null;
}

type Speak = (key: string, values: Readonly<Record<string, SayableValue>>) => string;

/** After losing a race: who has the alert now, or that nobody has one with this code any more. */
async function sayWhoHasIt(alert: AlertRecord, { register, roster }: NurseParts, speak: Speak): Promise<string> {
  const now = (await register.findAlerts(alert.code)).find((one) => one.key === alert.key);
  return now === undefined ? speak('alert.unknown', {}) : speak('alert.already', { nurse: nameOf(now.takenBy, roster) });
}

function toWorker(
  alert: AlertRecord,
  key: string,
  message: string,
  values: Readonly<Record<string, SayableValue>>,
  now: number,
  { roster, speak }: NurseParts,
): Entry {
  const language = roster.find(alert.worker)?.language ?? '';
  return { kind: 'text', key, to: alert.worker, text: speak(language, message, { code: alert.code, ...values }), urgent: true, at: now };
}

function nameOf(phone: string | null, roster: Roster): string {
  return (phone === null ? undefined : roster.find(phone)?.name) ?? phone ?? '';
}
