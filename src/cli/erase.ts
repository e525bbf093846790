// `pipit erase`: a baby on request, or all that were seen last long ago. Shows what it would do until it is told to.

import { type Erasable, eraseBaby, findByCode, findById, findSeenBefore } from '../register/erase.ts';
import type { Config } from './config.ts';
import { withRegister } from './register-database.ts';

export interface EraseOptions {
  readonly facility?: string;
  readonly id?: string;
  readonly olderThan?: number;
  readonly by?: string;
  readonly yes: boolean;
}

const day = 86_400_000;
const batch = 100;

/** The exit code: 0 erased, 1 not. Errors: what was asked for is not clear, with what to give. */
export async function erase(
  config: Config,
  code: string | undefined,
  options: EraseOptions,
  now: number,
  print: (line: string) => void,
): Promise<number> {
  const { by, yes, olderThan } = options;
  if (by === undefined || by.trim() === '') throw new Error('Give --by NAME: the audit trail says who erased.');
  if (olderThan !== undefined) return eraseOld(config, olderThan, by, yes, now, print);
  return withRegister(config, async (database) => {
    const found =
      options.id !== undefined
        ? await findById(database, options.id)
        : await findByCode(database, required(options.facility), required(code).toUpperCase());
    const [baby, ...others] = found;
    if (baby === undefined) {
      print('No such baby, or it is erased already.');
      return 1;
    }
    for (const one of found) print(lineOf(one));
    if (others.length > 0) {
      print('Several babies have this code. Give one of them: --id ID.');
      return 1;
    }
    if (!yes) {
      print('Nothing was erased. The same again with --yes erases it; that cannot be undone.');
      return 1;
    }
    const outcome = await eraseBaby(database, baby.id, by, now);
    if (outcome === 'open') {
      print('Not erased: an alert or a referral of this baby is open. See that it is helped and close it, then erase.');
      return 1;
    }
    if (outcome === 'busy') {
      print('Not erased: something is being written of this baby just now. Give the command again.');
      return 1;
    }
    print(outcome === 'erased' ? 'Erased.' : 'It is erased already.');
    return 0;
  });
}

async function eraseOld(
  config: Config,
  days: number,
  by: string,
  yes: boolean,
  now: number,
  print: (line: string) => void,
): Promise<number> {
  if (!Number.isInteger(days) || days < 1) throw new Error('--older-than must be a whole number of days.');
  return withRegister(config, async (database) => {
    let erased = 0;
    for (;;) {
      const old = await findSeenBefore(database, now - days * day, batch);
      if (!yes) {
        print(
          `${old.length}${old.length === batch ? ' or more' : ''} to erase. Nothing was erased. The same again with --yes erases them; that cannot be undone.`,
        );
        return 1;
      }
      for (const { id } of old) if ((await eraseBaby(database, id, by, now)) === 'erased') erased += 1;
      if (old.length < batch) break;
    }
    print(`${erased} erased.`);
    return 0;
  });
}

function required(value: string | undefined): string {
  if (value !== undefined) return value;
  throw new Error('Give the code and --facility ID, or --id ID, or --older-than DAYS.');
}

function lineOf({ id, code, facility, status, seenAt }: Erasable): string {
  return `${code}  ${facility}  ${status}  seen last ${new Date(seenAt).toISOString()}  --id '${id}'`;
}
