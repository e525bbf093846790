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

interface Found {
  readonly book: Book;
  readonly mayInject: boolean;
  readonly at: number;
  readonly position: Position;
}

/**
 * The last standing of each examination, since one turn asks for the same one several times. Pure all the same: everything
 * that a standing follows from is compared, none of it changes once made, and what is kept goes with the examination.
 */
const lastFound = new WeakMap<Examination, Found>();

export function standingOf(examination: Examination, { mayInject }: Pick<Caller, 'mayInject'>, book: Book, now: number): Position {
  const at = examination.finishedAt ?? now;
  const last = lastFound.get(examination);
  if (last !== undefined && last.book === book && last.mayInject === mayInject && last.at === at) return last.position;
  const position = find(examination, mayInject, book, at);
  lastFound.set(examination, { book, mayInject, at, position });
  return position;
}

function find(examination: Examination, mayInject: boolean, book: Book, at: number): Position {
  const flow = flowNamed(examination.flow, book);
  const flows = [...examination.earlier.map((name) => flowNamed(name, book)), flow];
  const gathered = gather(flows, examination, book.findings, at);
  const interpretation = book.interpret(gathered.case);
  const standing = { gathered, interpretation, mayInject };
  return { flow, ...standing, next: nextStep(flow, examination, standing) };
}

function flowNamed(name: string, book: Book): Flow {
  const flow = book.flows.get(name);
  if (flow !== undefined) return flow;
  throw new Error(`No flow "${name}" is published, but a session is in it. Publish it again, or let the session run out.`);
}
