// Phones of a run of kills: whoever texts delivers again with the same id until there is an answer, as a gateway with a fallback
// does, and sends again what was answered with "not recorded". Next: end-to-end-kill-workers.ts, end-to-end-kill-nurses.ts.

import { readTwiml } from './channel-sms.ts';
import type { KilledProcesses } from './end-to-end-killed-processes.ts';
import type { KilledStores } from './end-to-end-killed-stores.ts';
import { deliver, type Text } from './end-to-end-phones.ts';
import type { Stack } from './end-to-end-stack.ts';

export interface Insisting {
  /** The answer to this text, whatever dies meanwhile. */
  insist(text: Text): Promise<string>;
  redelivered(): number;
}

const notAnswered = ['Still answering your last text', 'NOT RECORDED'];

export function insisting(stack: Stack, processes: Pick<KilledProcesses, 'url'>, stores: KilledStores): Insisting {
  let redelivered = 0;
  return {
    async insist(text) {
      for (;;) {
        const answer = await deliver(await processes.url(), text).catch(() => null);
        const reply = answer?.status === 200 ? (readTwiml(answer.body) ?? '') : null;
        if (reply !== null && !notAnswered.some((words) => reply.includes(words))) return reply;
        redelivered += 1;
        await stores.bothUp();
        // The process that held this phone is dead, or could not let go of it; as if its lock had run out.
        await stack.endLock(text.from);
      }
    },
    redelivered: () => redelivered,
  };
}
