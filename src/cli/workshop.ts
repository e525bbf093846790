// The workshop: work on files in a thread of its own, started when it is first asked for. A thread that dies fails what waits for it
// and is started anew. Next: workshop-worker.ts, the thread.

import { Worker } from 'node:worker_threads';
import type { Workshop } from '../console/ports.ts';
import type { ScreenLimit } from '../messages/screens.ts';
import type { Job } from './workshop-job.ts';
import type { SaidByThread } from './workshop-worker.ts';

interface Waiting {
  readonly resolve: (result: unknown) => void;
  readonly reject: (error: Error) => void;
}

/** Takes  screen: what the phone beside the editor shows on one, and what costs by USSD are counted with. */
export function openWorkshop(screen: ScreenLimit): Workshop & { end(): Promise<void> } {
  const waiting = new Map<number, Waiting>();
  let number = 0;
  let thread: Worker | null = null;
  const start = (): Worker => {
    const script = new URL(import.meta.url.replace(/workshop\.(ts|js)$/, 'workshop-worker.$1'));
    // From the source, on Node 20, a thread must be given what runs TypeScript by hand; built, it is plain JavaScript.
    const worker = script.pathname.endsWith('.js')
      ? new Worker(script)
      : new Worker(`import('tsx/esm/api').then(({ register }) => (register(), import(${JSON.stringify(script.href)})))`, { eval: true });
    worker.unref();
    worker.on('message', (said: SaidByThread) => {
      const asked = waiting.get(said.number);
      waiting.delete(said.number);
      if (waiting.size === 0) worker.unref();
      if (said.fault === undefined) asked?.resolve(said.result);
      else asked?.reject(new Error(said.fault));
    });
    const died = (why: unknown): void => {
      thread = null;
      for (const one of waiting.values()) one.reject(new Error('The workshop stopped. Try again.', { cause: why }));
      waiting.clear();
    };
    worker.on('error', died);
    worker.on('exit', died);
    return worker;
  };
  const ask = <Result>(job: Job): Promise<Result> =>
    new Promise((resolve, reject) => {
      thread ??= start();
      thread.ref();
      number += 1;
      waiting.set(number, { resolve: resolve as (result: unknown) => void, reject });
      thread.postMessage({ number, job });
    });
  return {
    check: (files) => ask({ kind: 'check', files }),
    play: (files, play) => ask({ kind: 'play', files, play, screen }),
    changes: (before, after) => ask({ kind: 'changes', before, after }),
    costs: (before, after) => ask({ kind: 'costs', before, after, screen }),
    map: (files, flow) => ask({ kind: 'map', files, flow }),
    end: async () => void (await thread?.terminate()),
  };
}
