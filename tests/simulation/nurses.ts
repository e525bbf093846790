// Nurses and coordinators: they take alerts or do not, pass some, advise, close; those of the hospital tell of babies that come.
// All shares are invented. Next: invariants.ts.

import { HOUR, MINUTE, SECOND } from './times.ts';
import { tell } from './workers.ts';
import { codeIn, type World } from './world.ts';

const shares = { takes: 0.75, together: 0.3, passes: 0.08, advises: 0.5, closes: 0.95, tells: 0.8 };

/** `colleagues`: who may sit beside her, and take the same alert in the same moment. */
export function listenAsNurse(world: World, phone: string, colleagues: readonly string[]): void {
  const { chance, scheduler } = world;
  world.answers(phone, (text) => {
    const code = codeIn(text);
    if (code === null) return;
    if (/to take it/.test(text)) {
      if (chance.is(shares.takes)) {
        const after = chance.whole(20, 600) * SECOND;
        scheduler.after(after, () => void take(world, phone, code));
        if (chance.is(shares.together)) scheduler.after(after, () => void take(world, chance.pick(colleagues), code));
      } else if (chance.is(shares.passes)) scheduler.after(chance.whole(20, 200) * SECOND, () => void world.text(phone, `${code} NO`));
    } else if (/Reply like|reply [2-9]/.test(text) && chance.is(shares.tells)) {
      scheduler.after(chance.whole(1, 40) * MINUTE, () => void tell(world, phone, code, text));
    }
  });
}

async function take(world: World, phone: string, code: string): Promise<void> {
  const { chance, scheduler } = world;
  let reply = await world.text(phone, code);
  // No answer, or the register is away: she tries again while she waits.
  for (let tries = 0; (reply === null || /not reach|again/i.test(reply)) && tries < 10; tries += 1) {
    await scheduler.pause(chance.whole(1, 4) * MINUTE);
    reply = await world.text(phone, code);
  }
  if (reply === null || !/is yours/.test(reply)) return;
  world.tookAlert.push({ nurse: phone, code });
  if (chance.is(shares.advises)) scheduler.after(chance.whole(1, 5) * MINUTE, () => void world.text(phone, `${code} keep warm, send now`));
  if (chance.is(shares.closes)) scheduler.after(chance.whole(2, 8) * HOUR, () => void world.text(phone, `${code} DONE`));
}
