// The adapter's link to a centre of the test's own, on a clock that stands until the test moves it.

import { pino } from 'pino';
import { onTestFinished } from 'vitest';
import { keepLink, type SmppLink } from '../../src/channels/smpp/link.ts';
import { openSession, type Take } from '../../src/channels/smpp/session.ts';
import { type Submit, submitter } from '../../src/channels/smpp/window.ts';
import { type HandClock, handClock } from './hand-clock.ts';
import { CENTRE, type Smsc, startSmsc } from './smsc.ts';

export interface LinkHere {
  readonly smsc: Smsc;
  readonly clock: HandClock;
  readonly link: SmppLink;
  readonly submit: Submit;
  readonly logged: readonly string[];
  /** Links that were lost. */
  readonly lost: () => number;
}

export interface LinkSettings {
  readonly window?: number;
  readonly password?: string;
  readonly take?: Take;
  readonly onLost?: () => void;
}

/** Opens a centre and a link to it, and closes both when the test is over. */
export async function openLink({ window = 3, password = CENTRE.password, take, onLost }: LinkSettings = {}): Promise<LinkHere> {
  const smsc = await startSmsc();
  const clock = handClock();
  const logged: string[] = [];
  let lost = 0;
  const centre = { ...CENTRE, host: '127.0.0.1', port: smsc.port, isTls: false, password };
  const times = { timing: clock, answerMilliseconds: 10_000, enquireMilliseconds: 30_000 };
  const link = keepLink({
    open: () => openSession(centre, times, take),
    timing: clock,
    log: pino({ level: 'info' }, { write: (line: string) => logged.push(line) }),
    lost: () => {
      lost += 1;
      onLost?.();
    },
  });
  onTestFinished(async () => {
    smsc.isAlive = true;
    await link.close();
    await smsc.close();
  });
  return { smsc, clock, link, submit: submitter(link, window, clock), logged, lost: () => lost };
}
