// Nurses and coordinators: they take alerts or do not, pass some, advise, close; those of the hospital tell of babies that come.
// All shares are invented. Next: invariants.ts.

import { tell } from './workers.ts';
import { codeIn, HOUR, MINUTE, SECOND, type World } from './world.ts';

const shares = { takes: 0.75, passes: 0.08, advises: 0.5, closes: 0.95, tells: 0.8 };

export function listenAsNurse(world: World, phone: string): void {
  const { chance } = world;
  world.answers(phone, (text) => {
    const code = codeIn(text);
    if (code === null) return;
    if (/to take it/.test(text)) {
      if (chance.is(shares.takes)) world.later(chance.whole(20, 600) * SECOND, () => take(world, phone, code));
      else if (chance.is(shares.passes))
        world.later(chance.whole(20, 200) * SECOND, async () => void (await world.text(phone, `${code} NO`)));
    } else if (/Reply like|reply [2-9]/.test(text) && chance.is(shares.tells)) {
      world.later(chance.whole(1, 40) * MINUTE, () => tell(world, phone, code, text));
    }
  });
}

async function take(world: World, phone: string, code: string): Promise<void> {
  const { chance } = world;
  const reply = await world.text(phone, code);
  if (!/is yours/.test(reply)) return;
  if (chance.is(shares.advises))
    world.later(chance.whole(1, 5) * MINUTE, async () => void (await world.text(phone, `${code} keep warm, send now`)));
  if (chance.is(shares.closes)) world.later(chance.whole(2, 8) * HOUR, async () => void (await world.text(phone, `${code} DONE`)));
}
