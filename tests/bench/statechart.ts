// The same examination as a machine of a general-purpose statechart library: a state for each step of the flow, entered where the step is
// asked, as `takeTurn` finds it. Answers come to it read already, and it says nothing back. Next: pure.ts, which holds it against takeTurn.

import { assign, createMachine, initialTransition, transition } from 'xstate';
import type { Book, Caller } from '../../src/dialog/book.ts';
import { beginExamination } from '../../src/dialog/examination.ts';
import type { Flow, Step } from '../../src/dialog/flow.ts';
import { guardsHold, isOpen } from '../../src/dialog/next-step.ts';
import { type Answer, type Examination, newSession, type Session } from '../../src/dialog/session.ts';
import { type Position, standingOf } from '../../src/dialog/standing.ts';
import { takeTurn } from '../../src/dialog/turn.ts';
import { processorSeconds } from './processor-time.ts';

interface Context {
  readonly examination: Examination;
  readonly position: Position;
}
interface Answered {
  readonly type: 'answer';
  readonly answer: Answer;
}

/** Transitions a second of processor time over this many passes, and the steps that were asked in one of them. */
export function transitionsPerSecond(
  texts: readonly string[],
  passes: number,
  book: Book,
  caller: Caller,
  now: number,
): { readonly perSecond: number; readonly asked: readonly string[] } {
  const { flow, examination, answers } = answered(texts, book, caller, now);
  const machine = machineOf(flow, { ...examination, answers: [], messages: 0 }, book, caller, now);
  const [first] = initialTransition(machine);
  const asked: string[] = [];
  const began = processorSeconds();
  for (let pass = 0; pass < passes; pass += 1) {
    let snapshot = first;
    for (const answer of answers) {
      if (pass === 0) asked.push(String(snapshot.value));
      [snapshot] = transition(machine, snapshot, { type: 'answer', answer });
    }
  }
  return { perSecond: (passes * answers.length) / (processorSeconds() - began), asked };
}

/** What the dialog itself made of these texts. */
function answered(texts: readonly string[], book: Book, caller: Caller, now: number) {
  let session: Session = newSession;
  for (const text of texts) session = takeTurn(session, { text, caller, dialled: false }, book, now).session;
  const { open } = session;
  const flow = book.flows.get(open?.flow ?? '');
  if (open === null || flow === undefined) throw new Error('The texts begin no examination. Write them as the flow now asks.');
  return { flow, examination: beginExamination(flow.id, caller.phone, now), answers: open.answers };
}

function machineOf(flow: Flow, examination: Examination, book: Book, caller: Caller, now: number) {
  const standing = (one: Examination): Context => ({ examination: one, position: standingOf(one, caller, book, now) });
  const isNext = (step: Step, { examination: one, position }: Context): boolean =>
    isOpen(step, one, position) && guardsHold(step, position);
  const asking = {
    on: {
      answer: {
        target: 'deciding',
        actions: assign(({ context, event }: { context: Context; event: Answered }) =>
          standing({
            ...context.examination,
            messages: context.examination.messages + 1,
            answers: [...context.examination.answers, event.answer],
          }),
        ),
      },
    },
  };
  return createMachine({
    types: {} as { context: Context; events: Answered },
    context: standing(examination),
    initial: 'deciding',
    states: {
      deciding: {
        always: flow.steps.map((step) => ({ target: step.id, guard: ({ context }: { context: Context }) => isNext(step, context) })),
      },
      ...Object.fromEntries(flow.steps.map((step) => [step.id, asking])),
    },
  });
}
