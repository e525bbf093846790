// PINs of a roster as they are stored: of digits that a table holds only the hash is kept. Digits whose hash is stored already keep
// it, so that the same table again changes nothing. Next: password.ts; src/register/roster.ts, through which every roster is stored.

import { hashPassword, isPassword } from './password.ts';
import type { Person } from './ports.ts';
import type { RosterData } from './roster.ts';

const digits = /^\d{4,8}$/;

/** One after another: a hash takes a processor and much memory for a moment, and phones are answered beside it. */
export async function withHashedPins(data: RosterData, stored: RosterData): Promise<RosterData> {
  const before = new Map(stored.people.map(({ phone, pin }) => [phone, pin]));
  const people: Person[] = [];
  for (const person of data.people) {
    const { pin } = person;
    if (pin === undefined || !digits.test(pin)) people.push(person);
    else people.push({ ...person, pin: await hashOf(pin, before.get(person.phone)) });
  }
  return { ...data, people };
}

async function hashOf(pin: string, stored: string | undefined): Promise<string> {
  return stored !== undefined && (await isPassword(pin, stored)) ? stored : hashPassword(pin);
}
