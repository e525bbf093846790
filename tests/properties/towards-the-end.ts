// Answers whatever is asked, with a first digit, 0 or -, until an examination is finished. Next: any-turn.test.ts.

import type { Session } from '../../src/dialog/session.ts';
import { positionOf, turnOf } from './any-dialog.ts';

export interface Ended {
  readonly session: Session;
  readonly messages: number;
  /** The step that was asked last. */
  readonly at: string;
}

const enough = 80;

export function hasFinished({ open }: Session): boolean {
  return open?.finishedAt !== undefined;
}

/** Takes  choices: for each message, which of the answers that its question takes. */
export function answerTowardsTheEnd(from: Session, choices: readonly number[], start: number): Ended {
  let session = from;
  let now = start;
  let messages = 0;
  let at = '';
  for (; messages < enough && !hasFinished(session); messages += 1) {
    now += 1000;
    const answers = answersTo(session, now);
    session = turnOf(session, answers[(choices[messages] ?? 0) % answers.length] ?? '0', now).session;
    at = session.open === null ? 'menu' : positionOf(session, now).next.id;
  }
  return { session, messages, at };
}

/** The shortest answers that the question takes; 1 and 2 where it shows nothing else. */
function answersTo(session: Session, now: number): readonly string[] {
  if (session.followed !== undefined) return ['00'];
  if (session.view === 'menu' || session.view === 'languages' || session.doubt !== undefined || session.open === null) return ['1'];
  const { next } = positionOf(session, now);
  switch (next.kind) {
    case 'mark':
      return ['0', '1', '-'];
    case 'read':
      return next.fields.length === 1 && (next.fields[0]?.options.length ?? 0) > 0 ? ['1', '-'] : ['-'];
    case 'again':
      return ['-'];
    case 'result':
      // 1 only turns the page.
      return ['2'];
  }
}
