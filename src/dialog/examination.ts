// An examination's life as pure changes: begun, answered, taken back, finished, reopened, and begun again for a twin.

import type { FindingValue } from '../clinical/protocol.ts';
import type { Flow, Step } from './flow.ts';
import type { Answer, Examination } from './session.ts';

/** Letters and digits that are not taken for one another by eye or ear. */
const codeLetters = 'ACDEFHJKMNPRTUVWXY';
const codeDigits = '23456789';

/** The id is the natural key: one phone begins one examination at one instant. */
export function beginExamination(flow: string, phone: string, now: number): Examination {
  const id = `${phone}-${now}`;
  return { id, flow, code: codeOf(id), startedAt: now, answers: [], messages: 0, alerted: [], revision: 0 };
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
): Examination {
  const message = examination.messages + 1;
  const answer: Answer = {
    step: step.id,
    seal: step.seal,
    message,
    ...(given.marks === undefined ? {} : { marks: given.marks }),
    ...(given.passed === undefined ? {} : { passed: given.passed }),
    ...(Object.keys(given.values ?? {}).length === 0 ? {} : { values: given.values ?? {} }),
  };
  // A region answered anew, after an edit changed its meaning, replaces its older answer.
  const others = given.marks === undefined ? examination.answers : examination.answers.filter((old) => old.step !== step.id || old.marks === undefined);
  return { ...examination, messages: message, answers: [...others, answer] };
}

/** Drops all that the last message gave; null when nothing is left to take back. */
export function takeBack(examination: Examination): Examination | null {
  const last = examination.answers.at(-1);
  if (last === undefined || last.message === 0) return null;
  const { finishedAt: _finished, ...rest } = examination;
  return { ...rest, answers: examination.answers.filter((answer) => answer.message !== last.message) };
}

export function finish(examination: Examination, now: number): Examination {
  return { ...examination, finishedAt: now };
}

/** Opens a finished examination again, so that what was not looked at is asked now; answered values stay. */
export function reopen(examination: Examination, missing: readonly string[], flow: Flow): Examination {
  const wanted = new Set(missing);
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

/** The next twin starts with what the two share: the mother's history, the birth, and the weeks. */
export function beginTwin(examination: Examination, flow: Flow, phone: string, now: number): Examination {
  const shared = new Set(flow.steps.filter((step) => step.shared).map((step) => step.id));
  const begun = beginExamination(flow.id, phone, now);
  const answers = examination.answers.flatMap((answer): Answer[] => {
    if (shared.has(answer.step)) return [{ ...answer, message: 0 }];
    const gestation = answer.values?.gestation;
    return gestation === undefined ? [] : [{ step: answer.step, seal: answer.seal, message: 0, values: { gestation } }];
  });
  return { ...begun, answers };
}
