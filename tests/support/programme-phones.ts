// The phones of a programme that runs: what is texted in and what comes back, and the texts that go out, taken where a gateway would
// take them. Next: console.ts, which opens the programme; simulated-phones.ts in src/cli, the same on a clock of the test's own.

import type { Programme } from '../../src/cli/programme.ts';
import type { Sent, TextOut } from '../../src/conversation/records.ts';

export interface ProgrammePhones {
  send(from: string, text: string): Promise<string>;
  /** Texts to this phone since they were last taken, and of them all are sent. */
  take(to: string): Promise<string[]>;
  /** All texts that wait are lost: the gateway refuses each until it is given up. */
  loseAll(): Promise<void>;
}

const hour = 60 * 60_000;
/** More attempts than any text has. */
const attempts = 12;

export function phonesOf({ application, stores: { register } }: Pick<Programme, 'application' | 'stores'>): ProgrammePhones {
  let messages = 0;
  let inbox: readonly TextOut[] = [];
  const goOut = async (at: number, sent: Sent): Promise<readonly TextOut[]> => {
    const texts = await register.claimTexts(at, 1000, 1);
    for (const { key, urgent } of texts) {
      if (urgent || (await register.beginSending(key, at))) await register.settleText(key, sent, at);
    }
    return texts;
  };
  return {
    async send(from, text) {
      messages += 1;
      return (await application.receive({ channel: 'sms', from, id: `phone ${from} ${messages}`, text })).text;
    },
    async take(to) {
      inbox = [...inbox, ...(await goOut(Date.now(), { kind: 'sent', gatewayId: 'of a test' }))];
      const taken = inbox.filter((one) => one.to === to);
      inbox = inbox.filter((one) => one.to !== to);
      return taken.map(({ text }) => text);
    },
    async loseAll() {
      for (let attempt = 0; attempt < attempts; attempt += 1)
        await goOut(Date.now() + attempt * 5 * hour, { kind: 'failed', reason: 'switched-off' });
    },
  };
}
