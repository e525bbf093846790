// What a worker is told when the register did not take what she sent: never less than the advice, and never that a nurse knows
// when none does. Pure. Next: record.ts, which says what became of it; receive.ts.

import type { Caller } from '../dialog/book.ts';
import type { Reply, Say } from '../dialog/reply.ts';
import { say } from '../dialog/reply.ts';
import type { Recorded } from './record.ts';

const told = 'result.nurse-told';
const toldOfCorrection = 'told.eased';
const notTold = 'result.nurse-not-told';

/** The reply as it may be given; unchanged when all is in the register. */
export function replyAfter(reply: Reply, { where, isNurseTold }: Recorded, caller: Pick<Caller, 'nurse'>): Reply {
  if (where === 'register') return reply;
  const { nurse } = caller;
  const honest = isNurseTold ? reply : withoutNurseTold(reply, nurse);
  if (where === 'kept') return saysToRing(honest) ? honest : { ...honest, told: [say('system.register-down', { nurse }), ...honest.told] };
  // The session stays as it was before this message, so that the same message again makes it good. A question must not be asked
  // then: its answer would be read as the answer to the one before it.
  const { question: _question, ...rest } = honest;
  return { ...rest, told: [say('system.not-recorded', { nurse }), ...rest.told], ends: true };
}

function withoutNurseTold(reply: Reply, nurse: string): Reply {
  const swap = (one: Say): Say => (one.key === told ? { ...one, key: notTold } : one);
  const swapped = { ...reply, told: reply.told.filter(({ key }) => key !== toldOfCorrection).map(swap) };
  const { result } = reply;
  const honest =
    result === undefined ? swapped : { ...swapped, result: { ...result, head: result.head.map(swap), foot: result.foot.map(swap) } };
  return saysToRing(honest) ? honest : { ...honest, told: [say(notTold, { nurse }), ...honest.told] };
}

function saysToRing({ told: said, result }: Reply): boolean {
  return [...said, ...(result?.foot ?? []), ...(result?.head ?? [])].some(({ key }) => key === notTold);
}
