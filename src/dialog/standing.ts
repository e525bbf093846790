// Where an examination stands at one instant: what is known, what it means, and which step is next.

import type { Interpretation } from '../clinical/protocol.ts';
import type { Book, Caller } from './book.ts';
import type { Flow, Step } from './flow.ts';
import { type Gathered, gather } from './gather.ts';
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
  const position = new FoundWhenAsked(examination, mayInject, book, at);
  lastFound.set(examination, { book, mayInject, at, position });
  return position;
}

/** Finds each part when it is first asked for: a turn that knows what was asked needs little of where the examination stood before it. */
class FoundWhenAsked implements Position {
  readonly flow: Flow;
  readonly mayInject: boolean;
  private readonly examination: Examination;
  private readonly book: Book;
  private readonly at: number;
  private found: { gathered?: Gathered; interpretation?: Interpretation; next?: Step } = {};

  /** Errors, here or when what was gathered is first asked for: a flow of one of its looks is not published. */
  constructor(examination: Examination, mayInject: boolean, book: Book, at: number) {
    this.flow = flowNamed(examination.flow, book);
    this.mayInject = mayInject;
    this.examination = examination;
    this.book = book;
    this.at = at;
  }

  get gathered(): Gathered {
    const { examination, book, at, flow, found } = this;
    found.gathered ??= gather([...examination.earlier.map((name) => flowNamed(name, book)), flow], examination, book.findings, at);
    return found.gathered;
  }

  get interpretation(): Interpretation {
    this.found.interpretation ??= this.book.interpret(this.gathered.case);
    return this.found.interpretation;
  }

  get next(): Step {
    this.found.next ??= nextStep(this.flow, this.examination, this);
    return this.found.next;
  }
}

function flowNamed(name: string, book: Book): Flow {
  const flow = book.flows.get(name);
  if (flow !== undefined) return flow;
  throw new Error(`No flow "${name}" is published, but a session is in it. Publish it again, or let the session run out.`);
}
