// How many messages a phone may send in a while, or a gateway bring, counted in Redis for all processes together; in memory where there is no Redis, and
// while Redis is away. Far more than a person can send: it is for a loop between two machines and for a flood of strangers, whose every
// answer costs a text. Next: src/channels/caller.ts, which asks.

import { type RateLimiterAbstract, RateLimiterMemory, RateLimiterRedis, RateLimiterRes } from 'rate-limiter-flexible';
import { connectRedis } from './redis-client.ts';

export interface MessageRule {
  readonly messages: number;
  readonly seconds: number;
}

export interface MessageLimit {
  /** Counts the message; true: it is one too many. */
  isOver(who: string): Promise<boolean>;
}

export interface MessageLimits<Name extends string> {
  readonly limits: Readonly<Record<Name, MessageLimit>>;
  end(): Promise<void>;
}

/** A message waits no longer for being counted. */
const times = { commandMilliseconds: 250, connectMilliseconds: 2_000, reconnectMilliseconds: 2_000, waitsForNodes: false };

/** Takes    url: left out, each process counts for itself. */
export function messageLimits<Name extends string>(
  url: string | undefined,
  rules: Readonly<Record<Name, MessageRule>>,
): MessageLimits<Name> {
  const client = url === undefined ? null : connectRedis(url, times);
  const limitOf = ([name, { messages, seconds }]: [string, MessageRule]): [string, MessageLimit] => {
    const own = { keyPrefix: `pipit:limit:${name}`, points: messages, duration: seconds };
    const memory = new RateLimiterMemory(own);
    const counter = client === null ? memory : new RateLimiterRedis({ ...own, storeClient: client, insuranceLimiter: memory });
    return [name, { isOver: (who) => isOver(counter, who) }];
  };
  const entries = Object.entries<MessageRule>(rules).map(limitOf);
  return {
    limits: Object.fromEntries(entries) as Record<Name, MessageLimit>,
    end: async () => {
      client?.disconnect();
    },
  };
}

async function isOver(counter: RateLimiterAbstract, who: string): Promise<boolean> {
  try {
    await counter.consume(who);
    return false;
  } catch (refused) {
    if (refused instanceof RateLimiterRes) return true;
    throw refused;
  }
}
