// Runs a script of tests/faults/children in a process of its own, so that a test can kill it at a chosen moment.
// The script says a word on its output when it has come so far.

import { fileURLToPath } from 'node:url';
import { type StartedProcess, startProcess } from './started-process.ts';

export function startChild(name: string, args: readonly string[], sign: string): Promise<StartedProcess> {
  const script = fileURLToPath(new URL(`../faults/children/${name}.ts`, import.meta.url));
  return startProcess(process.execPath, ['--import', 'tsx', script, ...args], { sign, remedy: 'Run npm install.' });
}
