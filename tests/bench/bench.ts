// What every part of the bench is given. Next: run.ts, which names the parts.

import { fileURLToPath } from 'node:url';

export interface Bench {
  /** It is only looked whether it runs, with as little as that takes; the figures say nothing. */
  readonly isShort: boolean;
  /** Rounds that a median is taken over. */
  readonly rounds: number;
  readonly print: (line: object) => void;
}

export const root = fileURLToPath(new URL('../..', import.meta.url));
