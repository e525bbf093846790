// Reads the roster from its file. A roster with a fault in it is not used at all: a person left out would be turned away.

import type { Diagnostic } from '../authoring/diagnostic.ts';
import { renderDiagnostic } from '../authoring/diagnostic.ts';
import { type ReadRoster, readRoster } from '../authoring/read-roster.ts';
import { sourceOf } from './load-files.ts';

export function loadRoster(path: string): ReadRoster {
  const source = sourceOf(path);
  const faults: Diagnostic[] = [];
  const roster = readRoster(source, (fault) => faults.push(fault));
  const errors = faults.filter((fault) => fault.severity === 'error');
  if (errors.length === 0) return roster;
  throw new Error(`The roster cannot be used.\n${errors.map((fault) => renderDiagnostic(fault, source.text)).join('\n')}`);
}
