// `pipit phone`: a phone in the terminal to try the dialogs on, by SMS or with --ussd; what the nurse gets is shown too.
// Lines that begin with a colon are for the phone itself: :dial :drop :sms :ussd :nurse TEXT :from NUMBER TEXT :wait PT1H :bye

import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { createInterface } from 'node:readline/promises';
import { bindInForce, type Published } from '../conversation/book.ts';
import { emptyRoster, type RosterData, rosterOf } from '../conversation/roster.ts';
import { withHashedPins } from '../conversation/roster-pins.ts';
import { measure } from '../messages/segments.ts';
import { type Application, buildApplication, openStores } from './application.ts';
import type { Config } from './config.ts';
import { loadPublished } from './load-published.ts';
import { loadRoster } from './load-roster.ts';
import { playScript } from './play-script.ts';
import { readScript } from './script.ts';
import { SimulatedPhones } from './simulated-phones.ts';

export interface PhoneOptions {
  readonly ussd?: boolean;
  readonly as?: string;
  readonly script?: string;
  /** Price of one segment, in any money. */
  readonly price: number;
  /** Keeps the session from one call of the command to the next. */
  readonly keep?: boolean;
}

interface Desk {
  readonly phones: SimulatedPhones;
  readonly close: () => Promise<void>;
}

/** The exit code: 0, or 1 when a script's conversation came out differently. */
export async function phone(config: Config, options: PhoneOptions, write: (line: string) => void): Promise<number> {
  const roster = await withHashedPins(loadRoster(config.roster), emptyRoster);
  const published = loadPublished({ ...config, PIPIT_ALLOW_DRAFTS: true });
  if (options.script !== undefined) return playFile(options.script, roster, published, config, write);
  const worker = options.as ?? roster.people.find((person) => person.roles.includes('worker'))?.phone ?? '';
  const desk = await openDesk({
    roster,
    published,
    config,
    worker,
    channel: options.ussd === true ? 'ussd' : 'sms',
    now: Date.now(),
    data: options.keep === true ? config.PIPIT_DATA : 'memory',
  });
  try {
    await converse(desk.phones, options, worker, write);
    return 0;
  } finally {
    await desk.close();
  }
}

interface DeskParts {
  readonly roster: RosterData;
  readonly published: Published;
  readonly config: Config;
  readonly worker: string;
  readonly channel: 'sms' | 'ussd';
  readonly now: number;
  readonly data: string;
}

async function openDesk({ roster: known, published, config, worker, channel, now, data }: DeskParts): Promise<Desk> {
  const roster = rosterOf(known);
  const person = roster.find(worker);
  const nurse =
    person === undefined ? undefined : (roster.onCall(person.facility, now)[0]?.phone ?? roster.facility(person.facility)?.nurse);
  if (nurse === undefined)
    throw new Error(
      `${worker} is not on the roster. Take one of: ${known.people.map((one) => `${one.phone} (${one.name}, ${one.language})`).join(', ')}.`,
    );
  const stores = await openStores({ data });
  let ahead = 0;
  const started = Date.now();
  const clock = (): number => now + (Date.now() - started) + ahead;
  const quiet = {
    info: () => {},
    warn: () => {},
    error: (about: object, what: string) => process.stderr.write(`${what} ${JSON.stringify(about)}\n`),
  };
  let application: Application | null = null;
  const phones = new SimulatedPhones({
    worker,
    nurse,
    channel,
    receive: async (incoming) => {
      if (application === null) throw new Error('The desk is not open yet.');
      return application.receive(incoming);
    },
    sendDue: async () => application?.sendDue() ?? 0,
    advance: (milliseconds) => {
      ahead += milliseconds;
    },
  });
  const screen = { gsm7: config.PIPIT_SCREEN, ucs2: config.PIPIT_SCREEN_16_BIT };
  const inForce = bindInForce(published);
  const pinMilliseconds = config.PIPIT_PIN_MINUTES * 60_000;
  const places = { stores, roster, published: () => inForce, send: phones.outbox };
  application = buildApplication({ ...places, screen, pinMilliseconds, now: clock, log: quiet });
  return { phones, close: () => stores.end() };
}

async function playFile(
  path: string,
  roster: RosterData,
  published: Published,
  config: Config,
  write: (line: string) => void,
): Promise<number> {
  const script = readScript(basename(path), readFileSync(path, 'utf8'));
  const desk = await openDesk({
    roster,
    published,
    config,
    worker: script.as,
    channel: script.channel ?? 'sms',
    now: Date.parse(script.at),
    data: 'memory',
  });
  try {
    const disagreements = await playScript(script, desk.phones, ({ sent, reply }) => {
      write(`> ${sent}`);
      write(`${reply}   [${lengthOf(reply)}]`);
    });
    for (const { turn, sent, wanted, got } of disagreements) write(`DIFFERS at turn ${turn} (${sent}): wanted "${wanted}", got "${got}"`);
    write(disagreements.length === 0 ? `agrees: ${script.title}` : `${disagreements.length} differ: ${script.title}`);
    return disagreements.length === 0 ? 0 : 1;
  } finally {
    await desk.close();
  }
}

async function converse(phones: SimulatedPhones, options: PhoneOptions, worker: string, write: (line: string) => void): Promise<void> {
  write(`A phone for trying: ${worker}, ${phones.channel()}. The people are invented. :bye hangs up for good, :help lists the rest.`);
  if (phones.channel() === 'ussd') show(await phones.dialAgain(), phones, options, write);
  const terminal = createInterface({ input: process.stdin, output: process.stdout, prompt: '> ' });
  terminal.prompt();
  for await (const line of terminal) {
    const text = line.trim();
    if (text === ':bye') break;
    const reply = text.startsWith(':') ? await command(text, phones, write) : text === '' ? null : await phones.send(text);
    if (reply !== null) show(reply, phones, options, write);
    for (const { to, text: news } of await phones.takeAll())
      write(`   to ${to === worker ? 'the worker' : to}: ${news}   [${lengthOf(news)}]`);
    terminal.prompt();
  }
  terminal.close();
}

function isNumber(who: string): who is `+${string}` {
  return who.startsWith('+');
}

async function command(text: string, phones: SimulatedPhones, write: (line: string) => void): Promise<string | null> {
  const [name = '', ...rest] = text.slice(1).split(' ');
  const words = rest.join(' ');
  switch (name) {
    case 'dial':
      phones.switchTo('ussd');
      return phones.dialAgain();
    case 'drop':
      phones.drop();
      write('   (signal lost)');
      return null;
    case 'sms':
      phones.switchTo('sms');
      return null;
    case 'ussd':
      phones.switchTo('ussd');
      return phones.dialAgain();
    case 'nurse':
      write(`   (nurse) ${await phones.sendFrom('nurse', words)}`);
      return null;
    case 'from': {
      const [who = '', ...said] = rest;
      if (!isNumber(who)) write('   :from +254700555021 7FK');
      else write(`   (${who}) ${await phones.sendFrom(who, said.join(' '))}`);
      return null;
    }
    case 'wait':
      phones.wait(words);
      return null;
    default:
      write('   :dial :drop :sms :ussd :nurse 7FK :from +254700555021 7FK :wait PT1H :bye');
      return null;
  }
}

function show(reply: string | null, phones: SimulatedPhones, { price }: PhoneOptions, write: (line: string) => void): void {
  if (reply === null) return;
  write(reply);
  const texts = phones.replies.filter((one) => one.channel === 'sms');
  const segments = texts.reduce((sum, one) => sum + measure(one.text).segments, 0);
  const screens = phones.replies.length - texts.length;
  const toDate =
    phones.channel() === 'sms'
      ? `to date ${texts.length} texts, ${segments} segments, cost ${(segments * price).toFixed(2)}`
      : `to date ${screens} screens`;
  write(
    `   [${phones.channel() === 'sms' ? lengthOf(reply) : `${measure(reply).units} characters`}; ${toDate}]${phones.channel() === 'ussd' && !phones.isInCall() ? ' (call ended; :dial dials again)' : ''}`,
  );
}

function lengthOf(text: string): string {
  const { alphabet, units, segments } = measure(text);
  return `${units} ${alphabet === 'gsm-7' ? 'septets' : '16-bit units'}, ${segments} ${segments === 1 ? 'segment' : 'segments'}`;
}
