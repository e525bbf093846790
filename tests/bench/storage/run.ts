// `npm run storage`: how many bytes a session and a remembered reply take in Redis, and an examination in the register, as JSON lines
// with the method in each. Real servers, the real application, the mix of the bench. `-- --short` looks only whether it runs.
// Next: measure-redis.ts; flows/planning/measured.yaml, where the figures are kept for `pipit simulate`.

import { Redis } from 'ioredis';
import { type Application, buildApplication } from '../../../src/cli/application.ts';
import { loadPublished } from '../../../src/cli/load-published.ts';
import { openRegisterDatabase } from '../../../src/cli/register-database.ts';
import { bindInForce } from '../../../src/conversation/book.ts';
import { rosterOf } from '../../../src/conversation/roster.ts';
import { registerIn } from '../../../src/register/register.ts';
import { readSealingKeys } from '../../../src/register/sealing/keys.ts';
import { redisSessions } from '../../../src/sessions/redis.ts';
import { startPostgresServer } from '../../support/postgres-server.ts';
import { startRedisServer } from '../../support/redis-server.ts';
import { examinations } from '../examinations.ts';
import { measureRedis } from './measure-redis.ts';

const isShort = process.argv.includes('--short');
/** Phones of the register's two batches, each with every examination of the mix: the first fills the pages that a table begins with. */
const [settling, measured] = isShort ? [1, 1] : [20, 80];
/** Phones that stop somewhere on their way, each at another place. */
const underWay = isShort ? 12 : 600;
const atOnce = 8;
const start = Date.UTC(2026, 0, 15, 9, 30);
const nurse = '+254700555012';
const root = new URL('../../..', import.meta.url).pathname;
const print = (line: object): void => void process.stdout.write(`${JSON.stringify(isShort ? { short: true, ...line } : line)}\n`);

const published = loadPublished({ flows: `${root}flows`, locales: `${root}locales`, PIPIT_ALLOW_DRAFTS: true });
const inForce = bindInForce(published);
const phoneOf = (number: number): string => `+2547006${String(number).padStart(5, '0')}`;
const person = { facility: 'marula', language: 'en', mayInject: false };
const roster = rosterOf({
  facilities: [{ id: 'marula', name: 'Marula HC', zone: 'Africa/Nairobi', nurse, above: null, refersTo: null, travelMinutes: null }],
  people: [
    { ...person, phone: nurse, name: 'Invented Nurse', roles: ['nurse'] },
    ...Array.from({ length: settling + measured + underWay }, (_, number) => ({
      ...{ ...person, phone: phoneOf(number), name: `Invented Worker ${number}`, roles: ['worker' as const] },
    })),
  ],
  shifts: [],
  leave: [],
});
const caller = { ...person, phone: phoneOf(0), facilityName: 'Marula HC', zone: 'Africa/Nairobi', nurse };
const mix = examinations(inForce.book, caller, start);

const [redis, postgres] = await Promise.all([startRedisServer(), startPostgresServer()]);
const keys = readSealingKeys(`bench:${Buffer.alloc(32, 7).toString('base64')}`);
if (keys.kind === 'refused') throw new Error(keys.why);
const database = await openRegisterDatabase({ databaseUrl: postgres.url, data: '', keys: keys.keys });
const sessions = redisSessions({ url: redis.url });
let clock = start;
const fault = (about: object, what: string): never => {
  throw new Error(`${what}: ${JSON.stringify(about)}. Run the end-to-end tests first.`);
};
const application: Application = buildApplication({
  stores: { sessions, register: registerIn(database) },
  ...{ roster, published: () => inForce, screen: { gsm7: 182, ucs2: 70 }, now: () => clock },
  send: async ({ key }) => ({ kind: 'sent', gatewayId: `SM${key}` }),
  log: { info: () => {}, warn: fault, error: fault },
});

/** One text after another from this phone. */
async function play(phone: string, texts: readonly string[]): Promise<void> {
  for (const [number, text] of texts.entries()) {
    clock += 1000;
    await application.receive({ channel: 'sms', from: phone, id: `SM${phone.slice(1)}${String(number).padStart(20, '0')}`, text });
  }
}

/** Every phone from the one to the other, some at once; then what is due. */
async function playAll(from: number, until: number, textsOf: (number: number) => readonly string[]): Promise<void> {
  let next = from;
  const one = async (): Promise<void> => {
    while (next < until) {
      const number = next;
      next += 1;
      await play(phoneOf(number), textsOf(number));
    }
  };
  await Promise.all(Array.from({ length: atOnce }, one));
  while ((await application.sendDue()) > 0);
}

const sizeOfRegister = async (): Promise<{ bytes: number; examinations: number }> => {
  const [row] = await database.query<{ bytes: number; examinations: number }>(
    'select pg_database_size(current_database())::float8 as bytes, (select count(*) from examinations)::float8 as examinations',
  );
  if (row === undefined) throw new Error('The size of the register was not told.');
  return row;
};

await playAll(0, settling, () => mix.flat());
const before = await sizeOfRegister();
await playAll(settling, settling + measured, () => mix.flat());
const after = await sizeOfRegister();
const examined = after.examinations - before.examinations;
if (examined !== measured * mix.length) throw new Error(`${measured * mix.length} examinations were played and ${examined} are there.`);
print({
  bench: 'register-bytes-per-examination',
  unit: 'bytes',
  value: Math.round((after.bytes - before.bytes) / examined),
  method: `growth of pg_database_size over ${examined} examinations (1 of ${mix.length} urgent), indexes, alerts, texts out and due work in it, names sealed, no vacuum`,
});

const client = new Redis(redis.url);
await client.flushall();
const place = (number: number): readonly string[] => {
  const texts = mix[number % mix.length] ?? [];
  return texts.slice(0, 1 + (Math.floor(number / mix.length) % texts.length));
};
const found = await measureRedis(client, () => playAll(settling + measured, settling + measured + underWay, place));
print({
  bench: 'redis-session-bytes',
  unit: 'bytes',
  value: found.session,
  method: `${underWay} phones, each stopped at another place of an examination by SMS; MEMORY USAGE of the key, and its part of what used_memory grew more`,
});
print({
  bench: 'redis-reply-bytes',
  unit: 'bytes',
  value: found.reply,
  method: `a reply remembered under its message's id, mean of ${found.replies}; measured as the session`,
});

client.disconnect();
await sessions.end();
await database.close();
await Promise.all([redis.stop(), postgres.stop()]);
