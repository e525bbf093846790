// A sender of the bench, in a process of its own: says "ready", and from SIGUSR2 on sends what is due until nothing is. Its argument is the
// database. Next: register.ts.

import { sendDue } from '../../src/conversation/send-due.ts';
import { openPostgres } from '../../src/register/postgres.ts';
import { registerIn } from '../../src/register/register.ts';

const [url = ''] = process.argv.slice(2);
const database = openPostgres(url);
const register = registerIn(database);
await database.query('select 1');
const keepAlive = setInterval(() => {}, 60_000);
process.once('SIGUSR2', async () => {
  let sent = 0;
  const send = async () => {
    sent += 1;
    return { kind: 'sent', gatewayId: `SM${process.pid}-${sent}` } as const;
  };
  while ((await sendDue(register, send, Date.now)) > 0);
  clearInterval(keepAlive);
  await database.close();
  process.stdout.write(`sent ${sent}\n`);
});
process.stdout.write('ready\n');
