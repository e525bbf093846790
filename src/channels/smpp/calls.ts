// USSD calls as a centre presents them: a first message that begins the call, then the answer to each screen alone. A call is known by
// its_session_info. The standard's has two bytes, the second of which counts; many centres send some bytes of their own, always the
// same in one call. Only where they are seen to change do they tell one answer from the next: else each screen that the centre took
// does, so that "0" twice is two answers, and "0" delivered again is one. Next: door.ts.
//
// Source   SMPP 3.4, 5.3.2.43 its_session_info.

import { createHash } from 'node:crypto';

const mostCalls = 10_000;
const DIGEST_LENGTH = 16;

export interface CallMessage {
  /** The same through all of one call. */
  readonly dial: string;
  /** The same message delivered again has the same. */
  readonly id: string;
}

export interface Calls {
  message(from: string, session: Buffer, begins: boolean, text: string): CallMessage;
  /** The centre took the answer to this message: what comes next answers that screen. */
  shown(from: string, dial: string): void;
}

interface Call {
  readonly beganWith: string;
  screen: number;
}

/** Takes process: a name that no other process has, nor this one after a restart. */
export function rememberCalls(process: string): Calls {
  const calls = new Map<string, Call>();
  let screens = 0;
  const remember = (key: string, call: Call): Call => {
    calls.delete(key);
    calls.set(key, call);
    const [oldest] = calls.keys();
    if (calls.size > mostCalls && oldest !== undefined) calls.delete(oldest);
    return call;
  };
  const nextScreen = (): number => {
    screens += 1;
    return screens;
  };
  return {
    message(from, session, begins, text) {
      const written = session.toString('hex');
      const dial = `smpp-${session.length === 2 ? written.slice(0, 2) : written}`;
      const key = `${from} ${dial}`;
      const known = begins ? undefined : calls.get(key);
      const call = known ?? remember(key, { beganWith: written, screen: nextScreen() });
      const unit = call.beganWith === written ? `${process}-${call.screen}` : written;
      const digest = createHash('sha256').update(`${from}\n${text}`).digest('hex').slice(0, DIGEST_LENGTH);
      return { dial, id: `ussd:${dial}:${unit}:${digest}` };
    },
    shown(from, dial) {
      const call = calls.get(`${from} ${dial}`);
      if (call !== undefined) call.screen = nextScreen();
    },
  };
}
