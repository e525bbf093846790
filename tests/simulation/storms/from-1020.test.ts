// Two hundred of a thousand stormy days. Next: seeds.ts.

import { liveThroughStorms } from './seeds.ts';

liveThroughStorms(1_020);
