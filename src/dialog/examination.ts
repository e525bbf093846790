// An examination's life as pure changes: begun, answered, taken back, finished, reopened, and begun again for a twin.

import type { FindingValue } from '../clinical/protocol.ts';
import type { Flow, Step } from './flow.ts';
import type { Answer, Examination } from './session.ts';

/** Letters and digits that are not taken for one another by eye or ear. */
export const codeLetters = 'ACDEFHJKMNPRTUVWXY';
export const codeDigits = '23456789';

/** The id is the natural key: one message of a phone begins one examination, however often it is delivered. */
export function beginExamination(flow: string, phone: string, now: number, message = String(now)): Examination {
  const id = `${phone}-${message}`;
  return { id, flow, code: codeOf(id), earlier: [], startedAt: now, answers: [], messages: 0, alerted: [], revision: 0 };
}

/** Digit, letter, letter, from a 32-bit FNV-1a hash of the id: short to text, and never read as an answer's digits. */
export function codeOf(id: string): string {
  let hash = 0x811c9dc5;
  for (const char of id) hash = Math.imul(hash ^ (char.codePointAt(0) ?? 0), 0x01000193) >>> 0;
  const pick = (from: string): string => {
    const char = from[hash % from.length] ?? '';
    hash = Math.floor(hash / from.length);
    return char;
  };
  return pick(codeDigits) + pick(codeLetters) + pick(codeLetters);
}

export function addAnswer(
  examination: Examination,
  step: Step,
  given: { readonly marks?: readonly string[]; readonly passed?: true; readonly values?: Readonly<Record<string, FindingValue>> },
  message = examination.messages + 1,
): Examination {
  const answer: Answer = {
    step: step.id,
    seal: step.seal,
    message,
    ...lookOf(examination),
    ...(given.marks === undefined ? {} : { marks: given.marks }),
    ...(given.passed === undefined ? {} : { passed: given.passed }),
    ...(Object.keys(given.values ?? {}).length === 0 ? {} : { values: given.values ?? {} }),
  };
  const others =
    given.marks === undefined
      ? examination.answers
      : examination.answers.flatMap((old) => (isOfThisLook(old, examination) ? replaced(old, step) : [old]));
  return { ...examination, messages: message, answers: [...others, answer] };
}

/** The number of the look that is going on; left out for the first. */
function lookOf({ earlier }: Examination): { look?: number } {
  return earlier.length === 0 ? {} : { look: earlier.length };
}

export function isOfThisLook(answer: Answer, { earlier }: Examination): boolean {
  return (answer.look ?? 0) === earlier.length;
}

/** What stays of an older answer when its region is answered anew: marks that the region no longer offers, and values sent along. */
function replaced(old: Answer, step: Step): Answer[] {
  if (old.step !== step.id || old.marks === undefined || step.kind !== 'mark') return [old];
  const { marks, ...rest } = old;
  const retired = marks.filter((id) => id !== step.more && !step.marks.some((mark) => mark.id === id));
  if (retired.length > 0) return [{ ...rest, marks: retired }];
  return rest.values === undefined ? [] : [rest];
}

/** Drops all that the last message gave; null when nothing is left to take back. */
export function takeBack(examination: Examination): Examination | null {
  const last = examination.answers.at(-1);
  if (last === undefined || last.message === 0 || !isOfThisLook(last, examination)) return null;
  const { finishedAt: _finished, ...rest } = examination;
  return { ...rest, answers: examination.answers.filter((answer) => answer.message !== last.message) };
}

export function finish(examination: Examination, now: number): Examination {
  return { ...examination, finishedAt: now };
}

/** Opens a finished examination again, so that what was not looked at is asked now; answered values stay. */
export function reopen(examination: Examination, missing: readonly string[], flow: Flow): Examination {
  const wanted = new Set(missing.map((what) => (what === 'ageHours' ? 'born' : what)));
  const { finishedAt: _finished, ...rest } = examination;
  const asks = (step: Step): boolean => {
    if (step.kind === 'read') return step.fields.some((field) => wanted.has(field.of));
    if (step.kind === 'again') return wanted.has(step.of);
    return step.kind === 'mark' && step.marks.some((mark) => mark.sets !== null && wanted.has(mark.sets.of));
  };
  const asked = new Set(flow.steps.filter(asks).map((step) => step.id));
  const answers = examination.answers.flatMap((answer): Answer[] => {
    if (answer.passed === true && asked.has(answer.step)) return [];
    if (answer.values === undefined) return [answer];
    const kept = Object.fromEntries(Object.entries(answer.values).filter(([of, value]) => !(value === null && wanted.has(of))));
    return [{ ...answer, values: kept }];
  });
  return { ...rest, answers, revision: examination.revision + 1 };
}

/** Looks again: what was found before stays known, and what the new look answers stands in its place. */
export function beginRecheck(examination: Examination, flow: string): Examination {
  const { finishedAt: _finished, before: _before, ...rest } = examination;
  return { ...rest, flow, earlier: [...examination.earlier, examination.flow], revision: examination.revision + 1 };
}

/** The next twin starts with what the two share: the mother's history and the weeks. Nothing else that was sent along goes over. */
export function beginTwin(examination: Examination, flow: Flow, phone: string, now: number, message?: string): Examination {
  const shared = flow.steps.filter((step) => step.shared);
  const names = new Set([
    'gestation',
    ...shared.flatMap((step) => (step.kind === 'read' ? [...step.fields.map((field) => field.of), ...Object.keys(step.notKnown)] : [])),
  ]);
  const answers = examination.answers.flatMap(({ values = {}, marks, passed, look: _look, ...answer }): Answer[] => {
    const isShared = shared.some((step) => step.id === answer.step);
    const kept = Object.entries(values).filter(([of]) => names.has(of));
    if (!isShared && kept.length === 0) return [];
    return [
      {
        ...answer,
        message: 0,
        ...(isShared && marks !== undefined ? { marks } : {}),
        ...(isShared && passed !== undefined ? { passed } : {}),
        ...(kept.length === 0 ? {} : { values: Object.fromEntries(kept) }),
      },
    ];
  });
  return { ...beginExamination(flow.id, phone, now, message), answers };
}
