// Texts out to the terminal, for trying pipit at a desk without a gateway. Shows the whole number and the whole text, as
// a phone would, so it is no log. Next: send.ts, the real one.

import type { SendText } from '../../conversation/ports.ts';

/** A sender that writes each text where it is told to, and always succeeds. */
export function terminalSender(write: (line: string) => void): SendText {
  return async ({ key, to, text }) => {
    write(`SMS > ${to}\n${text}\n`);
    return { kind: 'sent', gatewayId: `terminal:${key}` };
  };
}
