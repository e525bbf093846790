// Opens the embedded database in a folder, closes one session, records one text, and opens a second session that it
// never closes. Says "held"; then it waits to be killed. Arguments: the folder, the phone, now.

import { migrate } from '../../../src/register/migrate.ts';
import { openEmbedded } from '../../../src/register/pglite.ts';
import { registerIn } from '../../../src/register/register.ts';
import { embeddedSessions } from '../../../src/sessions/embedded.ts';

const [folder = '', phone = '', time = ''] = process.argv.slice(2);
const now = Number(time);
const database = await openEmbedded(folder);
await migrate(database);
const sessions = embeddedSessions(database);

const first = await sessions.open(phone, 'm1', now);
if (first.kind !== 'held') throw new Error(`Expected to hold ${phone}, but it is ${first.kind}.`);
await sessions.close(first.held, 'm1', 'written before the kill', 'r1', now);
await registerIn(database).record([{ kind: 'text', key: 'text-1', to: phone, text: 'A text', urgent: true, at: now }]);
console.log((await sessions.open(phone, 'm2', now)).kind);

// PGlite keeps no timer or socket: without one the process would end by itself.
setInterval(() => {}, 1 << 30);
