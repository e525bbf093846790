// Every target, in the order in which they are fuzzed.

import type { Target } from '../target.ts';
import { authored } from './authoring.ts';
import { wholeConversations } from './conversations.ts';
import { jsonRead } from './json.ts';
import { readings } from './readings.ts';
import { tabled } from './tables.ts';
import { webhooks } from './webhooks.ts';

export const targets: readonly Target[] = [...readings, ...wholeConversations, ...jsonRead, ...tabled, ...authored, ...webhooks];
