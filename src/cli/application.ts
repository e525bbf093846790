// Joins the parts: stores, register, roster, published files and senders become one application. The only place that
// knows which implementation stands behind a port; serve.ts and phone.ts build on it.

import { setTimeout as pause } from 'node:timers/promises';
import type { Accounts } from '../conversation/accounts.ts';
import type { InForce } from '../conversation/book.ts';
import type { Drafts } from '../conversation/drafts.ts';
import { answerWork } from '../conversation/due-work.ts';
import { noteGivenUp } from '../conversation/given-up.ts';
import { tellOfLost } from '../conversation/lost-text.ts';
import { isPassword } from '../conversation/password.ts';
import { faultName } from '../conversation/patience.ts';
import { usualPinMinutes } from '../conversation/pin/pass-pin.ts';
import type { Receive, Register, Roster, SendText, Sessions } from '../conversation/ports.ts';
import type { Publications } from '../conversation/publications.ts';
import { receiver } from '../conversation/receive.ts';
import { sendDue } from '../conversation/send-due.ts';
import { speaker } from '../conversation/speak.ts';
import { textReference } from '../conversation/text-reference.ts';
import type { Watch } from '../conversation/watch.ts';
import { keptWriter } from '../conversation/write-kept.ts';
import type { ScreenLimit } from '../messages/screens.ts';
import { accountsIn } from '../register/accounts.ts';
import { draftsIn } from '../register/drafts.ts';
import { publicationsIn } from '../register/publications.ts';
import { registerIn } from '../register/register.ts';
import { type RosterStore, rosterStoreIn } from '../register/roster.ts';
import { watchIn } from '../register/watch/watch.ts';
import { embeddedSessions } from '../sessions/embedded.ts';
import { redisSessions } from '../sessions/redis.ts';
import { type DatabasePlace, openRegisterDatabase } from './register-database.ts';

export interface Log {
  readonly info: (about: object, what: string) => void;
  readonly warn: (about: object, what: string) => void;
  readonly error: (about: object, what: string) => void;
}

export interface Stores {
  readonly sessions: Sessions;
  readonly register: Register;
  readonly roster: RosterStore;
  readonly publications: Publications;
  readonly drafts: Drafts;
  readonly accounts: Accounts;
  readonly watch: Watch;
  /** Ends both, in the order that they need. */
  end(): Promise<void>;
}

export interface StorePlaces extends DatabasePlace {
  readonly redisUrl?: string | undefined;
}

export async function openStores({ redisUrl, ...place }: StorePlaces): Promise<Stores> {
  const database = await openRegisterDatabase(place);
  const register = registerIn(database);
  const sessions = redisUrl === undefined ? embeddedSessions(database) : redisSessions({ url: redisUrl });
  return {
    sessions,
    register,
    roster: rosterStoreIn(database),
    publications: publicationsIn(database),
    drafts: draftsIn(database),
    accounts: accountsIn(database),
    watch: watchIn(database),
    end: async () => {
      await sessions.end();
      await register.end();
    },
  };
}

/** Pieces of work answered at a time. */
const workBatch = 20;

export interface Application {
  readonly receive: Receive;
  /** Answers the work and sends the texts that are due now; how many. */
  readonly sendDue: () => Promise<number>;
}

export interface ApplicationParts {
  readonly stores: Pick<Stores, 'sessions' | 'register'>;
  readonly roster: Roster;
  /** What is published now; asked anew for every message and every piece of work. */
  readonly published: () => InForce;
  readonly send: SendText;
  readonly screen: ScreenLimit;
  /** See ReceiveParts. Left out: texts are told apart by their ids alone, as by a program that answers faster than a person. */
  readonly sameTextMilliseconds?: number;
  /** See PinParts; left out: the usual. */
  readonly pinMilliseconds?: number;
  /** Left out: as passwords are looked at. */
  readonly isPin?: typeof isPassword;
  readonly now: () => number;
  /** Left out: the machine's own timers. */
  readonly pause?: (milliseconds: number) => Promise<void>;
  readonly log: Log;
  /** Called when a message may have left texts to send. */
  readonly wakeSender?: () => void;
}

export function buildApplication(parts: ApplicationParts): Application {
  const { stores, published, now, log, send } = parts;
  const receive = receiver({
    ...stores,
    roster: parts.roster,
    published,
    screen: parts.screen,
    sameTextMilliseconds: parts.sameTextMilliseconds ?? 0,
    pinMilliseconds: parts.pinMilliseconds ?? usualPinMinutes * 60_000,
    isPin: parts.isPin ?? isPassword,
    send,
    wakeSender: parts.wakeSender ?? (() => {}),
    now,
    pause: parts.pause ?? ((milliseconds) => pause(milliseconds)),
    log,
  });
  const speak: ReturnType<typeof speaker> = (...said) => speaker(published().catalogues)(...said);
  const answerDue = (): Promise<number> =>
    stores.register.workDue(
      now(),
      workBatch,
      (work) => answerWork(work, { roster: parts.roster, published: published(), speak, now: now() }),
      (work, error) => log.error({ work, fault: faultName(error) }, 'due work could not be answered'),
    );
  const writeKept = keptWriter({
    ...stores,
    send,
    now,
    refused: ({ kind }, error) => log.error({ kind, fault: faultName(error) }, 'a kept entry is refused by the register'),
  });
  const keptWritten = (): Promise<number> =>
    writeKept().catch((error: unknown) => {
      log.error({ fault: faultName(error) }, 'what is kept could not be written; it is tried again');
      return 0;
    });
  const tellLost = (): Promise<number> =>
    stores.register.tellOfLost(now(), workBatch, (lost) => {
      log.error({ text: textReference(lost.key) }, 'an urgent text could not be delivered; the coordinators are told');
      return tellOfLost(lost, now(), { roster: parts.roster, published: published(), speak });
    });
  const lookAtBegun = (): Promise<number> => noteGivenUp({ ...stores, roster: parts.roster, book: published().book, now });
  const sendTexts = (): Promise<number> => sendDue(stores.register, send, now);
  return { receive, sendDue: () => allDone([keptWritten, answerDue, tellLost, sendTexts, lookAtBegun]) };
}

/** One after the other; one that fails holds none of the others back, and is told of when all had their turn. */
async function allDone(parts: readonly (() => Promise<number>)[]): Promise<number> {
  let done = 0;
  const faults: unknown[] = [];
  for (const part of parts) {
    await part().then(
      (some) => {
        done += some;
      },
      (error: unknown) => faults.push(error),
    );
  }
  if (faults.length > 0) throw faults[0];
  return done;
}
