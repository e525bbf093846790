// The reference cases that ship with pipit, read once for all tests that need them.

import type { Diagnostic } from '../../src/authoring/diagnostic.ts';
import { type ReferenceCase, readReferenceCases } from '../../src/authoring/read-reference-cases.ts';
import { sourcesIn } from '../../src/cli/load-files.ts';
import { defaultProtocol, flowsFolder } from './default-protocol.ts';

const diagnostics: Diagnostic[] = [];

export const referenceCases: readonly ReferenceCase[] = readReferenceCases(
  sourcesIn(`${flowsFolder}/reference-cases`, 'flows/reference-cases'),
  defaultProtocol,
  (diagnostic) => diagnostics.push(diagnostic),
);
if (diagnostics.length > 0) throw new Error(`A reference case cannot be read: ${JSON.stringify(diagnostics[0])}`);
