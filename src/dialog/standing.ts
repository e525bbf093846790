// Where an examination stands at one instant: what is known, what it means, and which step is next.

import type { Book, Caller } from './book.ts';
import type { Flow, Step } from './flow.ts';
import { gather } from './gather.ts';
import type { Standing } from './lookup.ts';
import { nextStep } from './next-step.ts';
import type { Examination } from './session.ts';

export interface Position extends Standing {
  readonly flow: Flow;
  readonly next: Step;
}

export function standingOf(examination: Examination, caller: Caller, book: Book, now: number): Position {
  const flow = flowNamed(examination.flow, book);
  const flows = [...examination.earlier.map((name) => flowNamed(name, book)), flow];
  const gathered = gather(flows, examination, book.findings, examination.finishedAt ?? now);
  const interpretation = book.interpret(gathered.case);
  const standing = { gathered, interpretation, mayInject: caller.mayInject };
  return { flow, ...standing, next: nextStep(flow, examination, standing) };
}

function flowNamed(name: string, book: Book): Flow {
  const flow = book.flows.get(name);
  if (flow !== undefined) return flow;
  throw new Error(`No flow "${name}" is published, but a session is in it. Publish it again, or let the session run out.`);
}
