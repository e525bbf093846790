// What the centre delivers: texts, parts, calls, receipts; delivered twice, in crowds, at the end. The centre is run from the same
// package; the application behind the door is a list.

import { pino } from 'pino';
import { describe, expect, test } from 'vitest';
import { toE164 } from '../../../src/channels/caller.ts';
import type { Door } from '../../../src/channels/door.ts';
import { roomFor } from '../../../src/channels/room.ts';
import { type SmppDoor, smppDoor } from '../../../src/channels/smpp/door.ts';
import { STATUS } from '../../../src/channels/smpp/protocol.ts';
import type { Incoming, Outgoing } from '../../../src/conversation/ports.ts';
import type { DeliveryReport } from '../../../src/conversation/records.ts';
import { openLink } from '../../support/smpp-link.ts';
import { textFrom, ussdFrom } from '../../support/smsc.ts';

const WORKER = '+254700000321';
const phone = WORKER.slice(1);
const patiently = { timeout: 10_000, interval: 5 };

interface DoorSettings extends Pick<Door, 'isOverLimit' | 'isGatewayOverLimit'> {
  readonly reply?: (incoming: Incoming) => Outgoing | Promise<Outgoing>;
  readonly atATime?: number;
  readonly textSentAs?: (id: string, to: string) => Promise<string | null>;
  readonly report?: (reference: string, report: DeliveryReport) => Promise<void>;
}

/** A door at a link that stands. */
async function openDoor(settings: DoorSettings = {}) {
  const heard: Incoming[] = [];
  const logged: string[] = [];
  const reports: (readonly [string, DeliveryReport])[] = [];
  let door: SmppDoor | undefined;
  const here = await openLink({ take: (pdu) => door!.take(pdu), onLost: () => door?.linkLost() });
  door = smppDoor({
    submit: here.submit,
    receive: async (incoming) => {
      heard.push(incoming);
      return settings.reply === undefined ? { text: `Heard ${incoming.text}`, ends: false } : settings.reply(incoming);
    },
    log: pino({ level: 'info' }, { write: (line: string) => logged.push(line) }),
    isOverLimit: settings.isOverLimit ?? (async () => false),
    isGatewayOverLimit: settings.isGatewayOverLimit ?? (async () => false),
    screen: { fits: (text) => text.length <= 182, busyText: () => 'busy', brokenText: () => 'broken' },
    room: roomFor(settings.atATime ?? 10),
    receipts: {
      textSentAs: settings.textSentAs ?? (async (id, to) => `${id} to ${to}`),
      report: settings.report ?? (async (...told) => void reports.push(told)),
      toE164: (raw) => toE164(raw),
    },
    timing: here.clock,
    process: 'test',
  });
  await here.link.standing(0);
  await expect.poll(() => here.smsc.binds, patiently).toHaveLength(1);
  return { ...here, door, heard, logged, reports };
}

describe('a text', () => {
  test('is handed on, and its reply submitted to the phone, from the number it was sent to', async () => {
    const { smsc, heard } = await openDoor();
    expect(await smsc.deliver(textFrom(WORKER, 'BABY'))).toBe(STATUS.ok);
    expect(heard).toMatchObject([{ channel: 'sms', from: WORKER, text: 'BABY' }]);
    expect(smsc.submits).toMatchObject([{ to: phone, from: '700', text: 'Heard BABY', pdu: { registered_delivery: 0 } }]);
  });

  test.each([
    ['UCS-2', textFrom(WORKER, 'नया शिशु'), 'नया शिशु'],
    ['in message_payload', { ...textFrom(WORKER, ''), message_payload: Buffer.from('BABY') }, 'BABY'],
  ])('%s is read', async (_name, fields, text) => {
    const { smsc, heard } = await openDoor();
    expect(await smsc.deliver(fields)).toBe(STATUS.ok);
    expect(heard.map((one) => one.text)).toEqual([text]);
  });

  test('in parts is one text, each part acknowledged', async () => {
    const { smsc, heard } = await openDoor();
    const part = (number: number, text: string) => ({
      ...textFrom(WORKER, ''),
      esm_class: 0x40,
      short_message: Buffer.concat([Buffer.from([5, 0, 3, 9, 2, number]), Buffer.from(text)]),
    });
    expect(await smsc.deliver(part(2, ' T36.8'))).toBe(STATUS.ok);
    expect(await smsc.deliver(part(1, 'BABY GIRL'))).toBe(STATUS.ok);
    // The last part delivered again, because its answer was lost, is no text anew.
    expect(await smsc.deliver(part(1, 'BABY GIRL'))).toBe(STATUS.ok);
    expect(heard.map((one) => one.text)).toEqual(['BABY GIRL T36.8']);
  });

  test('whose answer was lost with the link is delivered again, and is the same message', async () => {
    const { smsc, heard, clock } = await openDoor({
      reply: () => {
        if (heard.length === 1) smsc.cut();
        return { text: 'Heard.', ends: false };
      },
    });
    const first = smsc.deliver(textFrom(WORKER, '0'));
    expect(await first).toBeNull();
    await expect.poll(() => clock.pauses(), patiently).toContain(1_000);
    await clock.move(1_000);
    await expect.poll(() => smsc.binds, patiently).toHaveLength(2);
    await clock.move(5_000);
    expect(await smsc.deliver(textFrom(WORKER, '0'))).toBe(STATUS.ok);
    expect(await smsc.deliver(textFrom(WORKER, '0'))).toBe(STATUS.ok);
    const ids = heard.map(({ id }) => id);
    expect(ids[1]).toBe(ids[0]);
    expect(ids[2]).not.toBe(ids[0]);
  });

  test('is not acknowledged before its reply is taken', async () => {
    const { smsc, heard, clock } = await openDoor();
    smsc.answer = () => STATUS.throttled;
    const delivered = smsc.deliver(textFrom(WORKER, '0'));
    for (const pause of [1_000, 2_000, 4_000]) {
      await expect.poll(() => clock.pauses(), patiently).toContain(pause);
      await clock.move(pause);
    }
    expect(await delivered).toBe(STATUS.notNow);
    smsc.answer = () => STATUS.ok;
    const again = smsc.deliver(textFrom(WORKER, '0'));
    await expect.poll(() => clock.pauses(), patiently).toContain(8_000);
    await clock.move(8_000);
    expect(await again).toBe(STATUS.ok);
    expect(new Set(heard.map(({ id }) => id)).size).toBe(1);
    expect(smsc.submits).toHaveLength(1);
  });

  test('to which a reply cannot ever be submitted is not delivered again', async () => {
    const { smsc, logged } = await openDoor();
    smsc.answer = () => 0x0b;
    expect(await smsc.deliver(textFrom(WORKER, 'BABY'))).toBe(STATUS.ok);
    expect(logged.join('')).toContain('"status":11');
  });

  test('that cannot be answered is "not now", and the log tells neither words nor number', async () => {
    const { smsc, logged } = await openDoor({
      reply: () => {
        throw new Error(`down: ${WORKER} Amina`);
      },
    });
    expect(await smsc.deliver(textFrom(WORKER, 'BABY of Amina'))).toBe(STATUS.notNow);
    expect(logged.join('')).toContain('an SMS could not be answered');
    expect(logged.join('')).not.toMatch(/Amina|700000321/);
  });

  test.each([
    ['of a phone over its limit', textFrom(WORKER, '1'), true],
    ['that the carrier answers', textFrom(WORKER, 'STOP'), false],
    ['from no phone number', { ...textFrom(WORKER, '1'), source_addr_ton: 5, source_addr: 'BANK' }, false],
    ['that is data', { ...textFrom(WORKER, '1'), data_coding: 4 }, false],
  ])('%s is acknowledged and not answered', async (_name, fields, isOver) => {
    const { smsc, heard } = await openDoor({ isOverLimit: async () => isOver });
    expect(await smsc.deliver(fields)).toBe(STATUS.ok);
    expect(heard).toEqual([]);
    expect(smsc.submits).toEqual([]);
  });

  test('is "not now" when the centre brings too much', async () => {
    const { smsc, heard } = await openDoor({ isGatewayOverLimit: async (gateway) => gateway === 'smpp' });
    expect([await smsc.deliver(textFrom(WORKER, '1')), heard]).toEqual([STATUS.notNow, []]);
  });

  test('that is one too many at a time is "not now"', async () => {
    const answering: (() => void)[] = [];
    const { smsc } = await openDoor({
      atATime: 1,
      reply: () => new Promise((resolve) => answering.push(() => resolve({ text: '', ends: false }))),
    });
    const first = smsc.deliver(textFrom(WORKER, '1'));
    await expect.poll(() => answering, patiently).toHaveLength(1);
    expect(await smsc.deliver(textFrom('+254700000322', '1'))).toBe(STATUS.notNow);
    answering[0]!();
    expect(await first).toBe(STATUS.ok);
  });
});

test('at the end nothing new is taken, and what was taken is answered', async () => {
  const answering: (() => void)[] = [];
  const { smsc, door } = await openDoor({
    reply: () => new Promise((resolve) => answering.push(() => resolve({ text: 'Heard.', ends: false }))),
  });
  const taken = smsc.deliver(textFrom(WORKER, '1'));
  await expect.poll(() => answering, patiently).toHaveLength(1);
  let isDrained = false;
  const drained = door.drain().then(() => {
    isDrained = true;
  });
  expect(await smsc.deliver(textFrom('+254700000322', '1'))).toBe(STATUS.notNow);
  expect(isDrained).toBe(false);
  answering[0]!();
  await drained;
  expect(await taken).toBe(STATUS.ok);
  expect(smsc.submits).toHaveLength(1);
});

describe('a call', () => {
  const session = Buffer.from('0a0b0c0d', 'hex');

  test('begins, goes on and ends in the session that the centre gave it', async () => {
    const { smsc, heard } = await openDoor({ reply: ({ text }) => ({ text: `Screen ${text}`, ends: text === '9' }) });
    for (const [operation, keyed, op] of [
      [1, '*384#', 2],
      [18, '0', 2],
      [18, '0', 2],
      [18, '9', 17],
    ] as const) {
      expect(await smsc.deliver(ussdFrom(WORKER, session, operation, keyed))).toBe(STATUS.ok);
      const { pdu, text } = await smsc.next(phone);
      expect(text).toBe(`Screen ${keyed}`);
      expect(pdu).toMatchObject({ service_type: 'USSD', ussd_service_op: op, its_session_info: session, registered_delivery: 0 });
      // The centre's answer to the screen is on its way to us.
      await expect.poll(() => heard.length, patiently).toBe(smsc.submits.length);
    }
    expect(heard.map(({ channel, keyed, text }) => [channel, keyed, text])).toEqual([
      ['ussd', 'dialled', '*384#'],
      ['ussd', 'answer', '0'],
      ['ussd', 'answer', '0'],
      ['ussd', 'answer', '9'],
    ]);
    expect(new Set(heard.map(({ dial }) => dial)).size).toBe(1);
    expect(new Set(heard.map(({ id }) => id)).size).toBe(4);
  });

  test('whose answer is delivered again while it is answered shows one screen', async () => {
    const answering: (() => void)[] = [];
    const { smsc, heard } = await openDoor({
      reply: () => new Promise((resolve) => answering.push(() => resolve({ text: 'Screen', ends: false }))),
    });
    for (const [operation, keyed] of [
      [1, '*384#'],
      [18, '0'],
    ] as const) {
      for (const _delivery of [1, 2]) expect(await smsc.deliver(ussdFrom(WORKER, session, operation, keyed))).toBe(STATUS.ok);
      await expect.poll(() => answering, patiently).toHaveLength(1);
      answering.shift()!();
      await smsc.next(phone);
    }
    expect(heard.map(({ text }) => text)).toEqual(['*384#', '0']);
    expect(smsc.submits).toHaveLength(2);
  });

  test.each([
    ['of a phone over its limit', { isOverLimit: async () => true }, 'busy'],
    ['of a centre over its limit', { isGatewayOverLimit: async (gateway: string) => gateway === 'smpp' }, 'busy'],
    [
      'that fails',
      {
        reply: () => {
          throw new Error('down');
        },
      },
      'broken',
    ],
  ])('%s is told so, and ends', async (_name, settings, screen) => {
    const { smsc } = await openDoor(settings);
    await smsc.deliver(ussdFrom(WORKER, session, 1, '*384#'));
    expect(await smsc.next(phone)).toMatchObject({ text: screen, pdu: { ussd_service_op: 17 } });
  });

  test.each([0, 2, 16, 17, 19, 255])('operation %i is nobody waiting for a screen', async (operation) => {
    const { smsc, heard } = await openDoor();
    expect(await smsc.deliver(ussdFrom(WORKER, session, operation, ''))).toBe(STATUS.ok);
    expect(heard).toEqual([]);
  });
});

describe('a receipt', () => {
  test('is told of the text that the centre gave this id, to this phone', async () => {
    const { smsc, reports } = await openDoor();
    const submit = { id: 'id-7', to: phone, from: '700', text: '', pdu: {} as never };
    expect(await smsc.receipt(submit, 2)).toBe(STATUS.ok);
    expect(await smsc.receipt(submit, 5)).toBe(STATUS.ok);
    expect(await smsc.receipt(submit, 1)).toBe(STATUS.ok);
    expect(reports).toEqual([
      [`id-7 to ${WORKER}`, { kind: 'delivered', gatewayId: 'id-7' }],
      [`id-7 to ${WORKER}`, { kind: 'failed', reason: 'undeliv', gatewayId: 'id-7' }],
    ]);
  });

  test('that is faster than our own note of its id is looked for again', async () => {
    let asked = 0;
    const { smsc, reports, clock } = await openDoor({
      textSentAs: async () => {
        asked += 1;
        return asked < 3 ? null : 'found';
      },
    });
    const told = smsc.receipt({ id: 'id-7', to: phone, from: '700', text: '', pdu: {} as never }, 2);
    for (const pause of [500, 5_000]) {
      await expect.poll(() => clock.pauses(), patiently).toContain(pause);
      await clock.move(pause);
    }
    expect(await told).toBe(STATUS.ok);
    expect(reports).toMatchObject([['found', { kind: 'delivered' }]]);
  });

  test('that cannot be written is "not now"', async () => {
    const { smsc } = await openDoor({ report: () => Promise.reject(new Error('away')) });
    expect(await smsc.receipt({ id: 'id-7', to: phone, from: '700', text: '', pdu: {} as never }, 2)).toBe(STATUS.notNow);
  });
});
