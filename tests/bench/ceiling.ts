// The ceiling that the webhook is measured against: the same Express and body-parser, the same four round trips to Redis of
// about the same size, a constant reply, and nothing else. Started by stage.ts as: ceiling.ts <redis url> <port> <bytes>.

import bodyParser from 'body-parser';
import express from 'express';
import { Redis } from 'ioredis';
import { toTwiml } from '../../src/channels/sms/twiml.ts';

const [redisUrl = '', port = '0', bytes = '600'] = process.argv.slice(2);
const redis = new Redis(redisUrl);
const session = 's'.repeat(Number(bytes));
const reply = toTwiml('DANGER NOW? 0 none 1 fit 2 moves only if touched 3 no movement 4 gasps 5 long pauses');

// As many keys and values as two limits, opening and closing a session take, and no decision in them.
redis.defineCommand('ceilingCount', {
  numberOfKeys: 1,
  lua: `redis.call('SET', KEYS[1], 0, 'EX', 60, 'NX') local counted = redis.call('INCR', KEYS[1]) return { counted, redis.call('PTTL', KEYS[1]) }`,
});
redis.defineCommand('ceilingOpen', {
  numberOfKeys: 2,
  lua: `redis.call('SET', KEYS[1], '1', 'PX', 10000) return redis.call('GET', KEYS[2])`,
});
redis.defineCommand('ceilingClose', {
  numberOfKeys: 3,
  lua: `redis.call('SET', KEYS[2], ARGV[1], 'PX', 600000) redis.call('SET', KEYS[3], ARGV[2], 'PX', 600000) return redis.call('DEL', KEYS[1])`,
});
type Ceiling = Redis & Record<'ceilingCount' | 'ceilingOpen' | 'ceilingClose', (...values: string[]) => Promise<unknown>>;
const commands = redis as Ceiling;

const app = express();
app.post('/sms', bodyParser.urlencoded({ extended: false }), async (request, response) => {
  const { From = '', MessageSid = '' } = request.body as Record<string, string>;
  const [lock, held, kept] = [`c:{${From}}:lock`, `c:{${From}}:session`, `c:{${From}}:reply:${MessageSid}`];
  await commands.ceilingCount(`c:limit:${From}`);
  await commands.ceilingCount('c:limit:gateway');
  await commands.ceilingOpen(lock, held);
  await commands.ceilingClose(lock, held, kept, session, reply);
  response.type('text/xml').send(reply);
});
app.listen(Number(port), '127.0.0.1', () => process.stdout.write('ceiling is listening\n'));
