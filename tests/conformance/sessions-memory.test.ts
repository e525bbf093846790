// The sessions that other tests stand on, in plain memory, held to what every store promises.

import { memorySessions } from '../support/memory-stores.ts';
import { sessionsConformance, testLifetimes } from './sessions.ts';

let now = Date.UTC(2026, 0, 1);
const harness = {
  sessions: memorySessions(testLifetimes),
  now: () => now,
  async runOut(what: 'lock' | 'session' | 'reply' | 'alike') {
    now += testLifetimes[`${what}Milliseconds`];
  },
};

sessionsConformance('memory', () => harness);
