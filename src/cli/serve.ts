// `pipit serve`: the webhooks on a loopback port, and what is due beside them. Stops on SIGTERM or SIGINT after the turns in
// flight are answered. Next: programme.ts, what stands behind the doors; work.ts, the same without doors.

import { randomUUID } from 'node:crypto';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import pino from 'pino';
import { toE164 } from '../channels/caller.ts';
import { listen } from '../channels/listen.ts';
import { roomFor } from '../channels/room.ts';
import { buildServer, type ServerParts } from '../channels/server.ts';
import { smppDoor } from '../channels/smpp/door.ts';
import { machineTiming } from '../channels/timing.ts';
import { answers } from '../channels/watching/answers.ts';
import { openMeasures } from '../channels/watching/measures.ts';
import { root as consoleRoot } from '../console/route.ts';
import { say } from '../messages/catalogue.ts';
import { fitsScreen } from '../messages/screens.ts';
import { messageLimits } from '../sessions/message-limit.ts';
import type { Config } from './config.ts';
import { openConsole } from './console.ts';
import { gatewaysIn } from './gateway-faults.ts';
import { keepWorking, type Working } from './keep-working.ts';
import { knowingNewNumbers } from './live-roster.ts';
import { openProgramme, type Programme } from './programme.ts';

export interface Serving {
  readonly url: string;
  close(): Promise<void>;
}

/** Errors: what stops the start, each fault with its remedy, as one Error. */
export async function serve(config: Config): Promise<Serving> {
  const log = pino();
  const programme = await openProgramme(config, log, () => working?.wake());
  const { published, roster, stores, application } = programme;
  const working: Working | null = config.PIPIT_WORK ? keepWorking(() => application.sendDue(), log) : null;
  const pages = openConsole(config, programme, log);
  const asked = { sessions: () => stores.sessions.answers(), register: () => stores.publications.last() };
  const measures = openMeasures({
    standing: (now) => stores.watch.standing(now),
    stores: asked,
    ...(programme.gateway.smpp === undefined ? {} : { isLinkUp: programme.gateway.smpp.isUp }),
    version: () => published.current().published.version,
    now: Date.now,
  });
  const { limits, end: endLimits } = messageLimits(config.REDIS_URL, {
    phone: { messages: config.PIPIT_MESSAGES_A_MINUTE, seconds: 60 },
    stranger: strangersMessages,
    gateway: { messages: config.PIPIT_MESSAGES_A_SECOND * gatewaysSeconds, seconds: gatewaysSeconds },
  });
  const screen = screenOf(programme);
  const parts: ServerParts = {
    receive: measures.measured(
      knowingNewNumbers(application.receive, roster, (milliseconds) => pause(milliseconds, undefined, { ref: false })),
    ),
    isOverLimit: (phone) => (roster.find(phone) === undefined ? limits.stranger : limits.phone).isOver(phone),
    isGatewayOverLimit: (gateway) => limits.gateway.isOver(gateway),
    watching: {
      // The register may be away: what is found is kept beside the sessions then, and workers are advised all the same.
      lacking: async () => ((await answers(asked.sessions)) ? [] : ['sessions']),
      ...(config.PIPIT_METRICS_TOKEN === undefined ? {} : { metrics: { token: config.PIPIT_METRICS_TOKEN, measures } }),
    },
    report: (reference, report) => stores.register.reportText(reference, report, Date.now()),
    log,
    ...(config.PIPIT_COUNTRY === undefined ? {} : { defaultCountry: config.PIPIT_COUNTRY as NonNullable<ServerParts['defaultCountry']> }),
    ...doorsFor(config, screen),
    mounts: { [consoleRoot]: pages.handler },
  };
  const smpp = openSmpp(config, programme, parts, screen);
  const closeBehind = async (): Promise<void> => {
    await smpp?.drain();
    await working?.stop();
    await pages.end();
    await endLimits();
    await programme.close();
  };
  const listening = await listen(buildServer(parts), config.PORT, config.HOST).catch(async (error: unknown) => {
    // Without a door the process must end, so that whoever watches it starts it again.
    await closeBehind();
    throw error;
  });
  log.info({ url: listening.url, version: published.current().published.version, flows: join(config.flows) }, 'pipit is listening');
  smpp?.open();
  return {
    url: listening.url,
    close: async () => {
      await listening.close();
      await closeBehind();
    },
  };
}

/** Somebody who is not on the roster is told so; a machine that goes on is not answered at a text each. */
const strangersMessages = { messages: 5, seconds: 3600 };

/** A gateway that was away brings what it kept at once; so long may it be above what is set. */
const gatewaysSeconds = 10;

type UssdScreen = Pick<NonNullable<ServerParts['ussd']>, 'fits' | 'busyText' | 'brokenText'>;

/** What a call sees when no turn can be taken. */
function screenOf({ published, roster, screen }: Programme): UssdScreen {
  const nurseOf = (phone: string): string => {
    const facility = roster.find(phone)?.facility ?? '';
    return roster.onCall(facility, Date.now())[0]?.phone ?? roster.facility(facility)?.nurse ?? '';
  };
  const speak = (phone: string, key: string): string =>
    say(published.current().catalogues, roster.find(phone)?.language ?? '', key, { nurse: nurseOf(phone) });
  return {
    fits: (text) => fitsScreen(text, screen),
    busyText: (phone) => speak(phone, 'system.busy'),
    brokenText: (phone) => speak(phone, 'system.failed'),
  };
}

/** The door to the centre, where SMPP is spoken; it is opened when all else stands. */
function openSmpp(
  config: Config,
  { gateway, stores }: Programme,
  parts: ServerParts,
  screen: UssdScreen,
): { open(): void; drain(): Promise<void> } | undefined {
  const { smpp } = gateway;
  if (smpp === undefined) return undefined;
  if (!config.PIPIT_SMPP_RECEIVES) return { open: () => smpp.open(), drain: async () => {} };
  const door = smppDoor({
    ...parts,
    submit: smpp.submit,
    screen,
    room: roomFor(config.PIPIT_MESSAGES_AT_A_TIME),
    receipts: {
      report: (reference, report) => stores.register.reportText(reference, report, Date.now()),
      textSentAs: (gatewayId, to) => stores.register.textSentAs(gatewayId, to),
      toE164: (raw) => toE164(raw, parts.defaultCountry),
    },
    timing: machineTiming,
    process: randomUUID().slice(0, 8),
  });
  return { open: () => smpp.open(door), drain: () => door.drain() };
}

function doorsFor(config: Config, screen: UssdScreen): Pick<ServerParts, 'sms' | 'kannel' | 'ussd'> {
  return { ...smsDoors(config), ...ussdDoor(config, screen) };
}

/** That of the gateway that texts go out through; in development the twilio-compatible one as well. */
function smsDoors(config: Config): Pick<ServerParts, 'sms' | 'kannel'> {
  const [gateway] = gatewaysIn(config);
  const room = roomFor(config.PIPIT_MESSAGES_AT_A_TIME);
  if (config.PIPIT_DEVELOPMENT) return { sms: { verifySignature: false }, kannel: { proof: { verifySecret: false }, room } };
  if (gateway === 'kannel') return { kannel: { proof: { verifySecret: true, secret: config.PIPIT_KANNEL_SECRET ?? '' }, room } };
  if (gateway === 'smpp') return {};
  return { sms: { verifySignature: true, authToken: config.SMS_TOKEN ?? '', publicUrl: config.PUBLIC_URL ?? '' } };
}

function ussdDoor(config: Config, screen: UssdScreen): Pick<ServerParts, 'ussd'> {
  if (config.USSD_SECRET !== undefined) return { ussd: { verifySecret: true, secret: config.USSD_SECRET, ...screen } };
  return config.PIPIT_DEVELOPMENT ? { ussd: { verifySecret: false, ...screen } } : {};
}
