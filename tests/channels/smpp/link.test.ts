// The link to the centre and what is submitted through it: bind, silence, loss, window, throttling, nonsense. The centre is run from
// the same package; the clock is moved by hand.

import { describe, expect, test } from 'vitest';
import { STATUS } from '../../../src/channels/smpp/protocol.ts';
import { smppSender, textFields } from '../../../src/channels/smpp/send.ts';
import { openLink } from '../../support/smpp-link.ts';
import { type Submit, textFrom } from '../../support/smsc.ts';

const WORKER = '+254700000321';
const one = (text = 'Hello') => textFields('700', WORKER, text);
const patiently = { timeout: 10_000, interval: 5 };

describe('the link', () => {
  test('binds both ways with a door, and one way without', async () => {
    const both = await openLink({ take: async () => STATUS.ok });
    await both.submit(one());
    expect(both.smsc.binds).toEqual(['bind_transceiver']);
    const out = await openLink();
    await out.submit(one());
    expect(out.smsc.binds).toEqual(['bind_transmitter']);
  });

  test('is made again after a loss, at ever longer pauses while the centre refuses', async () => {
    const { smsc, clock, link, submit, logged, lost } = await openLink();
    await submit(one());
    expect(link.isUp()).toBe(true);
    smsc.bindStatus = 0x0d;
    smsc.cut();
    await expect.poll(lost, patiently).toBe(1);
    expect(link.isUp()).toBe(false);
    const refusals = () => logged.filter((line) => line.includes('refuses the bind')).length;
    for (const [at, pause] of [1_000, 2_000, 4_000, 8_000].entries()) {
      await expect.poll(() => clock.pauses(), patiently).toEqual([pause]);
      await clock.move(pause);
      await expect.poll(refusals, patiently).toBe(at + 1);
    }
    await expect.poll(() => clock.pauses(), patiently).toEqual([16_000]);
    smsc.bindStatus = STATUS.ok;
    await clock.move(16_000);
    await expect.poll(() => smsc.binds, patiently).toHaveLength(2);
    expect(await submit(one())).toMatchObject({ kind: 'taken' });
  });

  test('never tells its password, and says what a wrong one was answered', async () => {
    const { logged } = await openLink({ password: 'wrong123' });
    await expect.poll(() => logged, patiently).toHaveLength(1);
    expect(JSON.parse(logged[0]!)).toMatchObject({ status: 0x0e });
    expect(logged.join('')).not.toContain('wrong123');
  });

  test('is looked at now and then, and given up when the centre is silent', async () => {
    const { smsc, clock, submit, lost } = await openLink();
    await submit(one());
    await clock.move(30_000);
    await expect.poll(() => smsc.heard, patiently).toEqual(['enquire_link']);
    await expect.poll(() => clock.pauses(), patiently).toEqual([30_000]);
    smsc.isAlive = false;
    await clock.move(30_000);
    await expect.poll(() => smsc.heard, patiently).toHaveLength(2);
    expect(lost()).toBe(0);
    await clock.move(10_000);
    await expect.poll(lost, patiently).toBe(1);
    smsc.isAlive = true;
    await expect.poll(() => clock.pauses(), patiently).toEqual([1_000]);
    await clock.move(1_000);
    await expect.poll(() => smsc.binds, patiently).toHaveLength(2);
  });

  test('takes leave of the centre when it is closed, and makes no other', async () => {
    const { smsc, clock, link, submit } = await openLink();
    await submit(one());
    await link.close();
    expect(smsc.heard).toEqual(['unbind']);
    await clock.move(120_000);
    expect(smsc.binds).toHaveLength(1);
    expect(await submit(one())).toEqual({ kind: 'not-sent' });
  });
});

describe('a text', () => {
  test.each([
    ['short, GSM 7-bit', 'Girl? [1] €', 0],
    ['long, GSM 7-bit', `${'Keep the baby warm. '.repeat(15)}`, 0],
    ['short, UCS-2', 'लड़की', 8],
    ['long, UCS-2', 'लड़की और लड़का '.repeat(12), 8],
  ])('that is %s is one submit, with one receipt', async (_name, text, coding) => {
    const { smsc, submit } = await openLink();
    const sent = await smppSender(submit, '+254700000999')({ key: 'alert-1', to: WORKER, text });
    expect(sent).toEqual({ kind: 'sent', gatewayId: 'id-1' });
    expect(smsc.submits).toMatchObject([{ to: WORKER.slice(1), from: '254700000999', text, pdu: { data_coding: coding } }]);
    expect(smsc.submits[0]!.pdu).toMatchObject({ registered_delivery: 1, dest_addr_ton: 1, source_addr_ton: 1 });
  });

  test.each([
    ['PIPIT', 5],
    ['700', 0],
    ['+254700000999', 1],
  ])('from %s has type of number %i', async (from, ton) => {
    const { smsc, submit } = await openLink();
    await smppSender(submit, from)({ key: 'k', to: WORKER, text: 'x' });
    expect(smsc.submits[0]!.pdu.source_addr_ton).toBe(ton);
  });

  test('that is refused says with what, and is not tried again', async () => {
    const { smsc, submit } = await openLink();
    let asked = 0;
    smsc.answer = () => {
      asked += 1;
      return 0x0b;
    };
    expect(await smppSender(submit, '700')({ key: 'k', to: WORKER, text: 'x' })).toEqual({ kind: 'failed', reason: 'smpp status 11' });
    expect(asked).toBe(1);
  });

  test('whose answer is lost with the link is unknown; one that never left was not sent', async () => {
    const { smsc, submit, clock } = await openLink();
    let heard = 0;
    smsc.answer = () => {
      heard += 1;
      return new Promise(() => {});
    };
    const send = smppSender(submit, '700');
    const [first, second] = ['k', 'l'].map((key) => send({ key, to: WORKER, text: key }));
    await expect.poll(() => heard, patiently).toBe(2);
    smsc.bindStatus = 0x0d;
    smsc.cut();
    expect([await first, await second]).toEqual([{ kind: 'unknown' }, { kind: 'unknown' }]);
    const third = send({ key: 'm', to: WORKER, text: 'z' });
    await expect.poll(() => clock.pauses(), patiently).toContain(5_000);
    await clock.move(5_000);
    expect(await third).toEqual({ kind: 'failed', reason: 'gateway not reached' });
  });

  test('that the centre does not answer in time is unknown', async () => {
    const { smsc, submit, clock } = await openLink();
    const heard = new Promise<void>((resolve) => {
      smsc.answer = () => {
        resolve();
        return new Promise(() => {});
      };
    });
    const sent = submit(one());
    await heard;
    await clock.move(10_000);
    expect(await sent).toEqual({ kind: 'unknown' });
  });
});

test('no more are unanswered at a time than the window holds, and all go out in order', async () => {
  const { smsc, submit } = await openLink({ window: 3 });
  const answering: (() => void)[] = [];
  const order: string[] = [];
  let most = 0;
  smsc.answer = ({ text }: Submit) => {
    order.push(text);
    return new Promise((resolve) => {
      answering.push(() => resolve(STATUS.ok));
      most = Math.max(most, answering.length);
    });
  };
  const all = Promise.all(Array.from({ length: 10 }, (_, at) => submit(one(`n${at}`))));
  for (let answered = 0; answered < 10; answered += 1) {
    await expect.poll(() => answering.length, patiently).toBe(Math.min(3, 10 - answered));
    answering.shift()!();
  }
  expect((await all).every(({ kind }) => kind === 'taken')).toBe(true);
  expect(most).toBe(3);
  expect(order).toEqual(Array.from({ length: 10 }, (_, at) => `n${at}`));
});

describe('a centre that is throttled', () => {
  test('is left alone for a while, longer each time, and then takes the same text once', async () => {
    const { smsc, submit, clock } = await openLink();
    const began = clock.now();
    const tried: number[] = [];
    smsc.answer = () => {
      tried.push(clock.now() - began);
      return tried.length < 3 ? STATUS.throttled : STATUS.ok;
    };
    const sent = submit(one());
    await expect.poll(() => tried, patiently).toHaveLength(1);
    for (const [at, pause] of [1_000, 2_000].entries()) {
      await expect.poll(() => clock.pauses(), patiently).toContain(pause);
      await clock.move(pause);
      await expect.poll(() => tried, patiently).toHaveLength(at + 2);
    }
    expect(await sent).toMatchObject({ kind: 'taken' });
    expect(tried).toEqual([0, 1_000, 3_000]);
    expect(smsc.submits).toHaveLength(1);
  });

  test('holds back all other texts as well, and in the end the text is refused', async () => {
    const { smsc, submit, clock } = await openLink();
    let tried = 0;
    smsc.answer = () => {
      tried += 1;
      return STATUS.throttled;
    };
    const sent = smppSender(submit, '700')({ key: 'k', to: WORKER, text: 'x' });
    await expect.poll(() => clock.pauses(), patiently).toContain(1_000);
    const other = submit(one('other'));
    await clock.move(999);
    expect(tried).toBe(1);
    await clock.move(1);
    // From now on both try together, and a refusal of either holds both back.
    for (const pause of [2_000, 4_000, 8_000]) {
      await expect.poll(() => clock.pauses(), patiently).toContain(pause);
      await clock.move(pause);
    }
    expect(await sent).toEqual({ kind: 'failed', reason: 'smpp status 88' });
    await clock.move(8_000);
    expect(await other).toEqual({ kind: 'refused', status: STATUS.throttled });
    expect(tried).toBe(8);
  });
});

describe('nonsense from the centre', () => {
  const bytes = (...words: number[]) => {
    const written = Buffer.alloc(words.length * 4);
    words.forEach((word, at) => void written.writeUInt32BE(word, at * 4));
    return written;
  };
  const fieldsOfZero = Buffer.alloc(17);
  test.each([
    ['a length beyond all bounds', bytes(0x7fff_ffff, 5, 0, 1)],
    ['a length below that of a header', bytes(8, 5, 0, 1)],
    ['an optional parameter cut short', Buffer.concat([bytes(16 + 17 + 5, 5, 0, 9), fieldsOfZero, Buffer.from([0x02, 0x04, 0, 2, 1])])],
  ])('%s costs no more than the link', async (_name, nonsense) => {
    const { smsc, submit, clock, lost } = await openLink({ take: async () => STATUS.ok });
    await submit(one());
    smsc.write(nonsense);
    await expect.poll(lost, patiently).toBe(1);
    await expect.poll(() => clock.pauses(), patiently).toEqual([1_000]);
    await clock.move(1_000);
    expect(await submit(one())).toMatchObject({ kind: 'taken' });
  });

  test('a length that leaves the reader stuck is found out by the next look at the link', async () => {
    const { smsc, submit, clock, lost } = await openLink({ take: async () => STATUS.ok });
    await submit(one());
    smsc.write(bytes(2, 5, 0, 1));
    await clock.move(30_000);
    await expect.poll(() => smsc.heard, patiently).toEqual(['enquire_link']);
    await clock.move(10_000);
    await expect.poll(lost, patiently).toBe(1);
  });

  test.each([
    ['a message that ends in the middle of a field', bytes(20, 5, 0, 1, 0x0001_0101)],
    ['a body longer than its message', Buffer.concat([bytes(16 + 17, 5, 0, 9), Buffer.alloc(16), Buffer.from([200])])],
    [
      'an optional parameter that ends beyond the message',
      Buffer.concat([bytes(16 + 17 + 5, 5, 0, 9), fieldsOfZero, Buffer.from([0x04, 0x24, 0, 90, 0x31])]),
    ],
  ])('%s is read as far as it goes', async (_name, nonsense) => {
    let taken = 0;
    const { smsc, submit, lost } = await openLink({
      take: async () => {
        taken += 1;
        return STATUS.ok;
      },
    });
    await submit(one());
    smsc.write(nonsense);
    await expect.poll(() => taken, patiently).toBe(1);
    expect(await submit(one())).toMatchObject({ kind: 'taken' });
    expect(lost()).toBe(0);
  });

  test('an unknown command and an answer that nobody waits for change nothing', async () => {
    const { smsc, submit, lost } = await openLink({ take: async () => STATUS.ok });
    await submit(one());
    smsc.write(bytes(16, 0x0000_0777, 0, 1));
    smsc.write(bytes(16, 0x0000_0102, 0, 2));
    smsc.write(Buffer.concat([bytes(17, 0x8000_0004, 0, 99), Buffer.from([0])]));
    expect(await submit(one())).toMatchObject({ kind: 'taken' });
    expect(lost()).toBe(0);
  });

  test('a door that throws is "not now"', async () => {
    const { smsc, submit } = await openLink({ take: () => Promise.reject(new Error('down')) });
    await submit(one());
    expect(await smsc.deliver(textFrom(WORKER, 'BABY'))).toBe(STATUS.notNow);
  });
});
