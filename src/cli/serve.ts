// `pipit serve`: the webhooks on a loopback port, and the sender of due texts beside them. Stops on SIGTERM or SIGINT after
// the turns in flight are answered.

import { join } from 'node:path';
import pino from 'pino';
import { listen } from '../channels/listen.ts';
import { buildServer, type ServerParts } from '../channels/server.ts';
import { twilioCompatibleSender } from '../channels/sms/send.ts';
import { terminalSender } from '../channels/sms/terminal.ts';
import type { SendText } from '../conversation/ports.ts';
import { say } from '../messages/catalogue.ts';
import { fitsScreen } from '../messages/screens.ts';
import { type Application, buildApplication, openStores } from './application.ts';
import { type Config, faultsOfServing } from './config.ts';
import { loadPublished } from './load-published.ts';
import { loadRoster } from './load-roster.ts';

const senderPauseMilliseconds = 5_000;
const gatewayTimeoutMilliseconds = 10_000;

export interface Serving {
  readonly url: string;
  close(): Promise<void>;
}

/** Errors: what stops the start, each fault with its remedy, as one Error. */
export async function serve(config: Config): Promise<Serving> {
  const faults = faultsOfServing(config);
  if (faults.length > 0) throw new Error(`Not started:\n- ${faults.join('\n- ')}`);
  const log = pino();
  const roster = loadRoster(config.roster);
  const published = await loadPublished(config);
  const stores = await openStores({ redisUrl: config.REDIS_URL, databaseUrl: config.DATABASE_URL, data: config.PIPIT_DATA });
  const screen = { gsm7: config.PIPIT_SCREEN, ucs2: config.PIPIT_SCREEN_16_BIT };
  const sender = keepSending(() => application.sendDue(), log);
  const application: Application = buildApplication({
    stores,
    roster,
    published,
    send: senderFor(config),
    screen,
    now: Date.now,
    log,
    wakeSender: sender.wake,
  });
  const speak = (phone: string, key: string, nurse: string): string =>
    say(published.catalogues, roster.find(phone)?.language ?? '', key, { nurse });
  const nurseOf = (phone: string): string => roster.facility(roster.find(phone)?.facility ?? '')?.nurse ?? '';
  const parts: ServerParts = {
    receive: application.receive,
    log,
    ...(config.PIPIT_COUNTRY === undefined ? {} : { defaultCountry: config.PIPIT_COUNTRY as NonNullable<ServerParts['defaultCountry']> }),
    ...doorsFor(config, {
      fits: (text) => fitsScreen(text, screen),
      busyText: (phone) => speak(phone, 'system.busy', nurseOf(phone)),
      brokenText: (phone) => speak(phone, 'system.failed', nurseOf(phone)),
    }),
  };
  if (config.PIPIT_DEVELOPMENT)
    log.warn({}, 'DEVELOPMENT: signatures and secrets are not checked, and texts go to the terminal. Never on a public address.');
  const listening = await listen(buildServer(parts), config.PORT, config.HOST);
  log.info({ url: listening.url, version: published.version, flows: join(config.flows) }, 'pipit is listening');
  return {
    url: listening.url,
    close: async () => {
      await listening.close();
      await sender.stop();
      await stores.end();
    },
  };
}

function doorsFor(
  config: Config,
  screen: Pick<NonNullable<ServerParts['ussd']>, 'fits' | 'busyText' | 'brokenText'>,
): Pick<ServerParts, 'sms' | 'ussd'> {
  const sms = config.PIPIT_DEVELOPMENT
    ? ({ verifySignature: false } as const)
    : ({ verifySignature: true, authToken: config.SMS_TOKEN ?? '', publicUrl: config.PUBLIC_URL ?? '' } as const);
  if (config.USSD_SECRET !== undefined) return { sms, ussd: { verifySecret: true, secret: config.USSD_SECRET, ...screen } };
  return config.PIPIT_DEVELOPMENT ? { sms, ussd: { verifySecret: false, ...screen } } : { sms };
}

function senderFor(config: Config): SendText {
  const { SMS_ACCOUNT: accountSid, SMS_TOKEN: authToken, SMS_FROM: from } = config;
  if (accountSid === undefined || authToken === undefined || from === undefined)
    return terminalSender((line) => process.stdout.write(`${line}\n`));
  return twilioCompatibleSender({ baseUrl: config.SMS_API, accountSid, authToken, from, timeoutMilliseconds: gatewayTimeoutMilliseconds });
}

/** Sends at once when woken, and looks for what is due every few seconds. One sending at a time. */
function keepSending(sendOnce: () => Promise<number>, log: { readonly error: (about: object, what: string) => void }) {
  let running: Promise<void> | null = null;
  let again = false;
  const run = async (): Promise<void> => {
    do {
      again = false;
      try {
        while ((await sendOnce()) > 0);
      } catch (error) {
        log.error({ fault: error instanceof Error ? error.name : 'unknown' }, 'due texts could not be sent; they are tried again');
      }
    } while (again);
  };
  const wake = (): void => {
    again = running !== null;
    running ??= run().finally(() => {
      running = null;
    });
  };
  const timer = setInterval(wake, senderPauseMilliseconds);
  return {
    wake,
    stop: async () => {
      clearInterval(timer);
      await running;
    },
  };
}
