// The first-day examination as it ships, as text and as a flow, with the names of the protocol that it is read with.

import { join } from 'node:path';
import type { Diagnostic } from '../../src/authoring/diagnostic.ts';
import { readFlow } from '../../src/authoring/read-flow.ts';
import type { Vocabulary } from '../../src/authoring/vocabulary.ts';
import { sourceOf } from '../../src/cli/load-files.ts';
import { loadProtocol } from '../../src/cli/load-protocol.ts';
import type { Flow } from '../../src/dialog/flow.ts';
import { flowsFolder } from '../support/default-protocol.ts';

const { read } = loadProtocol(join(flowsFolder, 'protocol'));
if (read.kind !== 'protocol') throw new Error('The protocol that ships cannot be read; see protocol-reading.test.ts.');
export const defaultVocabulary: Vocabulary = read.vocabulary;

export const flowText = sourceOf(join(flowsFolder, 'first-day-exam.yaml')).text;

/** A flow without a fault; a test whose own text has one fails here. */
export function flowFrom(text: string): Flow {
  const faults: Diagnostic[] = [];
  const flow = readFlow({ name: 'flows/try.yaml', text }, defaultVocabulary, (fault) => faults.push(fault));
  if (flow === null || faults.length > 0) throw new Error(`This flow cannot be read: ${JSON.stringify(faults)}`);
  return flow;
}
