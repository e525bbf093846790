// The clinical core alone: how many cases `interpret` takes in a second of processor time, and how many lines
// `pipit assess --lines` with reading and printing. The cases are the reference cases that ship, and what the turns of the
// mix ask for: one case with all that was answered so far.

import { join } from 'node:path';
import { readReferenceCases } from '../../src/authoring/read-reference-cases.ts';
import { loadForAssess, runAssess } from '../../src/cli/assess.ts';
import { sourcesIn } from '../../src/cli/load-files.ts';
import type { AnyCase } from '../../src/clinical/any-case.ts';
import type { Case, Protocol } from '../../src/clinical/protocol.ts';
import type { Book, Caller } from '../../src/dialog/book.ts';
import { newSession, type Session } from '../../src/dialog/session.ts';
import { takeTurn } from '../../src/dialog/turn.ts';
import { processorSeconds } from './processor-time.ts';

/** Errors: the protocol in this folder cannot be used. */
export async function protocolIn(flows: string): Promise<Protocol> {
  const loaded = await loadForAssess(flows);
  if (loaded.kind === 'unusable') throw new Error(loaded.why);
  return loaded.protocol;
}

export function referenceCases(flows: string, protocol: Protocol): Case[] {
  return readReferenceCases(sourcesIn(join(flows, 'reference-cases')), protocol, () => {}).map(({ input }) => input);
}

/** Every case that the dialog asks about while the mix is played. */
export function casesAsked(mix: readonly (readonly string[])[], book: Book, caller: Caller, now: number): AnyCase[] {
  const asked: AnyCase[] = [];
  const listening: Book = {
    ...book,
    interpret: (aCase) => {
      asked.push(aCase);
      return book.interpret(aCase);
    },
  };
  let session: Session = newSession;
  for (const text of mix.flat()) session = takeTurn(session, { text, caller, dialled: false }, listening, now).session;
  return asked;
}

/** Takes  meaning: by the protocol that the cases were gathered for, as a turn asks it. */
export function casesPerSecond(cases: readonly AnyCase[], passes: number, meaning: Book['interpret']): number {
  const began = processorSeconds();
  for (let pass = 0; pass < passes; pass += 1) for (const aCase of cases) meaning(aCase);
  return (passes * cases.length) / (processorSeconds() - began);
}

export function linesPerSecond(cases: readonly Case[], passes: number, protocol: Protocol): number {
  const stdin = `${cases.map((aCase) => JSON.stringify(aCase)).join('\n')}\n`;
  const began = processorSeconds();
  for (let pass = 0; pass < passes; pass += 1) {
    const { exitCode, stderr } = runAssess(stdin, { protocol: { kind: 'protocol', protocol }, lines: true });
    if (exitCode !== 0) throw new Error(`A reference case is refused: ${stderr}`);
  }
  return (passes * cases.length) / (processorSeconds() - began);
}
