// `pipit account add|list|remove`: who may open the console. A password comes from PIPIT_PASSWORD or the first line of standard input,
// never from the command line, where others could read it.

import { createInterface } from 'node:readline/promises';
import type { AccountRole } from '../conversation/accounts.ts';
import { hashPassword, shortestPassword } from '../conversation/password.ts';
import { accountsIn } from '../register/accounts.ts';
import { rosterStoreIn } from '../register/roster.ts';
import type { Config } from './config.ts';
import { withRegister } from './register-database.ts';

type Print = (line: string) => void;

export interface AccountOptions {
  readonly role: string;
  readonly phone?: string;
  readonly by: string;
}

/** The exit code: 0, or 1 when nothing was written. */
export async function addAccount(
  config: Config,
  name: string,
  { role, phone, by }: AccountOptions,
  password: string,
  now: number,
  print: Print,
): Promise<number> {
  if (role !== 'nurse' && role !== 'coordinator') return refuse('The role is nurse or coordinator: --role nurse.', print);
  if (role === 'nurse' && phone === undefined)
    return refuse('A nurse needs her number on the roster, in which she takes alerts: --phone NUMBER.', print);
  if (password.length < shortestPassword)
    return refuse(`A password has ${shortestPassword} characters or more. Nothing was written.`, print);
  const passwordHash = await hashPassword(password);
  return withRegister(config, async (database) => {
    const { data } = await rosterStoreIn(database).read();
    if (phone !== undefined && data.people.length > 0 && !data.people.some((one) => one.phone === phone))
      return refuse(`${phone} is not on the roster. Write it as it stands there, with the plus.`, print);
    await accountsIn(database).save({ name, role: role satisfies AccountRole, phone: phone ?? null, passwordHash }, by, now);
    print(`${name} may sign in as ${role}.`);
    return 0;
  });
}

export function listAccounts(config: Config, print: Print): Promise<number> {
  return withRegister(config, async (database) => {
    const accounts = await accountsIn(database).list();
    for (const { name, role, phone } of accounts) print([name, role, phone ?? ''].join('  ').trimEnd());
    if (accounts.length === 0) print('There are no accounts yet: pipit account add NAME --role coordinator.');
    return 0;
  });
}

export function removeAccount(config: Config, name: string, by: string, now: number, print: Print): Promise<number> {
  return withRegister(config, async (database) => {
    if (!(await accountsIn(database).remove(name, by, now))) return refuse(`There is no account ${name}: pipit account list.`, print);
    print(`${name} may not sign in any more.`);
    return 0;
  });
}

/** The first line of standard input. */
export async function askPassword(prompt: string): Promise<string> {
  const lines = createInterface({ input: process.stdin, ...(process.stdin.isTTY ? { output: process.stderr } : {}) });
  try {
    return process.stdin.isTTY ? await lines.question(prompt) : ((await lines[Symbol.asyncIterator]().next()).value ?? '');
  } finally {
    lines.close();
  }
}

function refuse(why: string, print: Print): number {
  print(why);
  return 1;
}
