// The first-day examination as it ships, with the protocol and the English words it is read with, for tests of the readers.
// Other flows and languages are left out, so that these tests speak of the readers only.

import { join } from 'node:path';
import type { Diagnostic } from '../../src/authoring/diagnostic.ts';
import { readCatalogues } from '../../src/authoring/read-catalogue.ts';
import { readFlow } from '../../src/authoring/read-flow.ts';
import type { Vocabulary } from '../../src/authoring/vocabulary.ts';
import { sourceOf, sourcesIn } from '../../src/cli/load-files.ts';
import { loadProtocol } from '../../src/cli/load-protocol.ts';
import { contradictionsIn } from '../../src/clinical/contradictions.ts';
import { interpreterFor } from '../../src/clinical/interpret.ts';
import type { NumberFinding } from '../../src/clinical/protocol.ts';
import { bindBook } from '../../src/conversation/book.ts';
import type { Book, Caller } from '../../src/dialog/book.ts';
import type { Flow, ReadField, Step } from '../../src/dialog/flow.ts';
import { readAnswer } from '../../src/dialog/read-answer.ts';
import { tokens } from '../../src/dialog/readings/tokens.ts';
import type { Taken } from '../../src/dialog/taken.ts';

const root = new URL('../..', import.meta.url).pathname;
const faults: Diagnostic[] = [];
const report = (fault: Diagnostic): void => void faults.push(fault);

const { read } = loadProtocol(join(root, 'flows/protocol'));
if (read.kind !== 'protocol') throw new Error('The protocol that ships cannot be read; see tests of src/authoring.');
export const vocabulary: Vocabulary = read.vocabulary;
export const findings = read.protocol.findingById;

export const flowSource = sourceOf(join(root, 'flows/first-day-exam.yaml'), 'flows/first-day-exam.yaml');
const readFirst = readFlow(flowSource, vocabulary, report);
const catalogues = readCatalogues(sourcesIn(join(root, 'locales/en'), 'locales/en'), () => {});
if (readFirst === null || faults.length > 0) throw new Error(`The first-day examination cannot be read: ${JSON.stringify(faults)}`);
export const flow: Flow = readFirst;

const measures = read.protocol.measures;
const range = (id: string): NumberFinding => measures.get(id)!;

export const book: Book = bindBook({
  version: 'test',
  flows: [flow],
  flowFor: { 'new-baby': flow.id, contact: flow.id, recheck: flow.id },
  findings,
  ranges: { gestation: range('gestation'), weight: range('weight'), 'age-days': { low: 0, high: 59, decimals: 0, unit: '' } },
  interpret: interpreterFor(read.protocol),
  contradicted: (aCase) => contradictionsIn(read.protocol, aCase).map(({ at }) => at),
  adviceOf: () => [],
  isBox: () => false,
  isAskedAgain: () => false,
  sourcesOf: () => [],
  isForAuthorised: () => false,
  doseBasis: () => undefined,
  followUp: read.followUp,
  catalogues,
});
export const words = book.languages[0]!.words;

/** An invented worker, and a Wednesday morning at her facility: 25 November 2026, 09:30. */
export const caller: Caller = {
  phone: '+254700555101',
  facility: 'marula',
  facilityName: 'Marula HC',
  zone: 'Africa/Nairobi',
  nurse: '+254700555012',
  language: 'en',
  mayInject: false,
};
export const now = Date.parse('2026-11-25T09:30:00+03:00');

export function stepOf(id: string): Step {
  const step = flow.steps.find((one) => one.id === id);
  if (step === undefined) throw new Error(`The first-day examination has no step "${id}".`);
  return step;
}

/** What is read of a message sent to a step of which all fields, or these, are open. */
export function sent(id: string, text: string, open?: readonly string[]): Taken {
  const step = stepOf(id);
  const fields: readonly ReadField[] = step.kind === 'read' ? step.fields.filter((field) => open?.includes(field.of) ?? true) : [];
  return readAnswer(step, fields, tokens(text, words), { book, words, caller, now });
}

/** What was read, what is asked back, and why the rest was refused. */
export function outcome(taken: Taken): { values: Taken['values']; doubts: Taken['doubts']; refused: readonly string[] } {
  return { values: taken.values, doubts: taken.doubts, refused: taken.refusals.map(({ code }) => code) };
}

/** Epoch minutes of a time written as 2026-11-25T04:30 at the facility. */
export function minutesAt(local: string): number {
  return Date.parse(`${local}:00+03:00`) / 60_000;
}
