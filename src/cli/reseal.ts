// `pipit reseal`: after a new key was put first in PIPIT_KEYS, all names and card numbers are sealed with it, and the old one can go.
// Next: src/register/sealing/reseal.ts.

import { reseal as resealAll } from '../register/sealing/reseal.ts';
import type { Config } from './config.ts';
import { withRegister } from './register-database.ts';

/** The exit code. Errors: no key is set. */
export async function reseal(config: Config, print: (line: string) => void): Promise<number> {
  const { PIPIT_KEYS: keys } = config;
  if (keys === undefined) throw new Error('PIPIT_KEYS is not set, so there is nothing to seal with. Set PIPIT_KEYS=ID:KEY.');
  const done = await withRegister(config, (database) => resealAll(database, keys));
  for (const [place, count] of done) print(`${place}: ${count}`);
  const others = keys.slice(1).map(({ id }) => id);
  print(
    `All is sealed with "${keys[0].id}".${others.length === 0 ? '' : ` No longer needed, except for older copies: ${others.join(', ')}.`}`,
  );
  return 0;
}
