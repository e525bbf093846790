// An examination as a stored session holds it: what is as it was at the beginning is left out, and each answer is a row. The names of
// its fields were half of a session, and the sessions of a country lie in memory. Next: stored-session.ts.

import type { Answer, Examination } from '../dialog/session.ts';

/** Without a rest, nothing was marked: what most questions of most babies are answered. */
type Row = readonly [step: string, seal: string, message: number, rest?: Rest];

type Rest = Omit<Answer, 'step' | 'seal' | 'message'>;

/** What is left out is empty, or none yet. */
export interface PackedExamination extends Omit<Examination, 'answers' | 'earlier' | 'alerted' | 'revision'> {
  readonly answers: readonly Row[];
  readonly earlier?: readonly string[];
  readonly alerted?: readonly string[];
  readonly revision?: number;
}

export function packed({ answers, earlier, alerted, revision, ...rest }: Examination): PackedExamination {
  return {
    ...rest,
    answers: answers.map(rowOf),
    ...(earlier.length === 0 ? {} : { earlier }),
    ...(alerted.length === 0 ? {} : { alerted }),
    ...(revision === 0 ? {} : { revision }),
  };
}

function rowOf({ step, seal, message, look, marks, passed, values }: Answer): Row {
  const isNothingMarked = marks?.length === 0 && look === undefined && passed === undefined && values === undefined;
  if (isNothingMarked) return [step, seal, message];
  // Every key by name, which the type asks for; what is undefined is not written.
  const rest: { readonly [Key in keyof Required<Rest>]: Rest[Key] | undefined } = { look, marks, passed, values };
  return [step, seal, message, rest as Rest];
}

/** Undefined: it is none. An answer may still be whole, as sessions held it before; they live for 30 days. Never throws. */
export function unpacked(value: unknown): Examination | undefined {
  if (!isPacked(value)) return undefined;
  const answers = value.answers.map(
    (answer: Row | Answer): Answer =>
      'step' in answer ? answer : { step: answer[0], seal: answer[1], message: answer[2], ...(answer[3] ?? nothingMarked) },
  );
  return { earlier: [], alerted: [], revision: 0, ...value, answers };
}

const nothingMarked: Rest = { marks: [] };

/** As far as a turn would break on it: a session that breaks every turn would leave its worker without a phone. */
function isPacked(value: unknown): value is PackedExamination & { readonly answers: readonly (Row | Answer)[] } {
  if (typeof value !== 'object' || value === null || !('flow' in value) || !('answers' in value)) return false;
  const { flow, answers } = value;
  return typeof flow === 'string' && Array.isArray(answers) && answers.every((answer) => typeof answer === 'object' && answer !== null);
}
