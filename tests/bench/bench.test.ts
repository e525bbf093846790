// The bench runs, whatever the machine: every part prints its lines, with a figure and its method in each. How large the figures are is for
// `npm run bench` to say, on a machine that does nothing else.

import { spawnSync } from 'node:child_process';
import { expect, it } from 'vitest';
import { root } from './bench.ts';

interface Line {
  readonly bench: string;
  readonly unit: string;
  readonly median: number;
  readonly method: string;
  readonly indexes?: readonly string[];
}

const patience = 600_000;

it(
  'measures each part in its shortest form',
  () => {
    const { stdout, stderr, status } = spawnSync(process.execPath, ['--import', 'tsx', 'tests/bench/run.ts', '--short'], {
      cwd: root,
      encoding: 'utf8',
      env: { PATH: process.env.PATH, HOME: process.env.HOME },
    });
    expect(status, stderr).toBe(0);
    const lines = stdout
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line) as Line);
    for (const { bench, unit, median, method } of lines) {
      expect(median, bench).toBeGreaterThan(0);
      expect(
        [unit, method].every((words) => words.length > 0),
        bench,
      ).toBe(true);
    }
    expect(new Set(lines.map(({ bench }) => bench))).toEqual(
      new Set([
        ...['take-turn', 'turn-to-statechart', 'interpret', 'interpret-asked', 'assess'],
        ...['session-text', 'sessions-held', 'cluster-to-single'],
        ...['register-writes', 'due-texts', 'due-scan'],
        ...['start-to-first-reply', 'check'],
        ...['session-bytes', 'webhook', 'ceiling', 'webhook-to-ceiling', 'p99-at-half-load', 'two-processes-to-one'],
      ]),
    );
    // What is due is found by its index, however many rows there are.
    for (const { bench, indexes } of lines) if (bench === 'due-scan') expect(indexes).toContain('due_work_pending');
  },
  patience,
);
