// Joins the parts: stores, register, roster, published files and senders become one application. The only place that
// knows which implementation stands behind a port; serve.ts and phone.ts build on it.

import { setTimeout as pause } from 'node:timers/promises';
import type { Published } from '../conversation/book.ts';
import { bindBook } from '../conversation/book.ts';
import type { Receive, Register, Roster, SendText, Sessions } from '../conversation/ports.ts';
import { receiver } from '../conversation/receive.ts';
import { sendDue } from '../conversation/send-due.ts';
import type { ScreenLimit } from '../messages/screens.ts';
import type { Database } from '../register/database.ts';
import { migrate } from '../register/migrate.ts';
import { openEmbedded } from '../register/pglite.ts';
import { openPostgres } from '../register/postgres.ts';
import { registerIn } from '../register/register.ts';
import { embeddedSessions } from '../sessions/embedded.ts';
import { redisSessions } from '../sessions/redis.ts';

export interface Log {
  readonly info: (about: object, what: string) => void;
  readonly warn: (about: object, what: string) => void;
  readonly error: (about: object, what: string) => void;
}

export interface Stores {
  readonly sessions: Sessions;
  readonly register: Register;
  /** Ends both, in the order that they need. */
  end(): Promise<void>;
}

export interface StorePlaces {
  readonly redisUrl?: string | undefined;
  readonly databaseUrl?: string | undefined;
  /** Folder of the embedded database, or `memory`. */
  readonly data: string;
}

export async function openStores({ redisUrl, databaseUrl, data }: StorePlaces): Promise<Stores> {
  const database: Database = databaseUrl === undefined ? await openEmbedded(data) : openPostgres(databaseUrl);
  await migrate(database);
  const register = registerIn(database);
  const sessions = redisUrl === undefined ? embeddedSessions(database) : redisSessions({ url: redisUrl });
  return {
    sessions,
    register,
    end: async () => {
      await sessions.end();
      await register.end();
    },
  };
}

export interface Application {
  readonly receive: Receive;
  /** Sends what is due, now; how many texts were tried. */
  readonly sendDue: () => Promise<number>;
}

export interface ApplicationParts {
  readonly stores: Pick<Stores, 'sessions' | 'register'>;
  readonly roster: Roster;
  readonly published: Published;
  readonly send: SendText;
  readonly screen: ScreenLimit;
  readonly now: () => number;
  readonly log: Log;
  /** Called when a message may have left texts to send. */
  readonly wakeSender?: () => void;
}

export function buildApplication(parts: ApplicationParts): Application {
  const { stores, published, now, log, send } = parts;
  const current = { book: bindBook(published), catalogues: published.catalogues };
  const receive = receiver({
    ...stores,
    roster: parts.roster,
    published: () => current,
    screen: parts.screen,
    send,
    wakeSender: parts.wakeSender ?? (() => {}),
    now,
    pause: (milliseconds) => pause(milliseconds),
    log,
  });
  return { receive, sendDue: () => sendDue(stores.register, send, now) };
}
