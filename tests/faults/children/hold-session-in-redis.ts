// Opens a session in Redis and never closes it. Says "held"; then it waits to be killed.
// Arguments: the Redis URL, the phone.

import { redisSessions } from '../../../src/sessions/redis.ts';

const [url = '', phone = ''] = process.argv.slice(2);
const opened = await redisSessions({ url }).open(phone, 'm1', 0);
console.log(opened.kind);
