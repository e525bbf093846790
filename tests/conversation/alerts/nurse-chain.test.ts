// An alert among several people: who may speak of it, who of two nurses at the same instant has it, how it is passed on, and what
// a code means that two babies share. Over the real register, with the people of the demonstration district, who are invented.

import { describe, expect, it } from 'vitest';
import type { AlertEntry } from '../../../src/conversation/records.ts';
import { type Desk, openDesk } from '../../support/desk.ts';

const now = Date.parse('2026-11-25T09:30:00+03:00');
const worker = '+254700555101';
const wanjiru = '+254700555012';
const njeri = '+254700555021';
const coordinator = '+254700555030';
/** A nurse of another health centre. */
const chebet = '+254700555041';
const kazungu = '+254700555051';

const fit = { id: 'convulsion', urgency: 'urgent', because: [{ finding: 'convulsion', value: 'in-this-illness' }], rows: [] };
const body = {
  case: { findings: { convulsion: 'in-this-illness' } },
  interpretation: { urgency: 'urgent', classifications: [fit], missing: [], advice: [], computed: {} },
};

const raised = (baby: string, of: string, changes: Partial<AlertEntry> = {}): AlertEntry => ({
  kind: 'alert',
  ...{ key: `alert:${baby}`, baby, code: '7FK', worker: of, facility: 'marula', nurse: wanjiru, at: now, body },
  ...changes,
});

async function withAlerts(...alerts: readonly AlertEntry[]): Promise<Desk> {
  const desk = await openDesk({ worker, channel: 'sms', now });
  await desk.register.record(alerts);
  return desk;
}

const stateOf = async (desk: Desk, baby: string) => {
  const alert = await desk.register.alertOf(baby);
  return alert === null ? 'closed' : `${alert.state} ${alert.takenBy ?? alert.nurse}`;
};

describe('of several people', () => {
  it.each([
    ['the nurse who was asked', wanjiru],
    ['a nurse of the facility above', njeri],
    ['the coordinator', coordinator],
  ] as const)('%s may take an alert', async (_who, phone) => {
    const desk = await withAlerts(raised('b1', worker));
    expect(await desk.phones.sendFrom(phone, '7FK')).toContain('7FK is yours');
    expect(await stateOf(desk, 'b1')).toBe(`taken ${phone}`);
  });

  it('a nurse of another facility may not, and is told', async () => {
    const desk = await withAlerts(raised('b1', worker, { facility: 'acacia', nurse: chebet }));
    for (const text of ['7FK', '7FK warm him', '7FK DONE', '7FK NO'])
      expect(await desk.phones.sendFrom(wanjiru, text)).toBe('7FK is not from your facilities. Nothing was changed or passed on.');
    expect(await stateOf(desk, 'b1')).toBe(`open ${chebet}`);
  });

  it('a nurse of another facility may, when she was asked', async () => {
    const desk = await withAlerts(raised('b1', worker, { facility: 'acacia', nurse: wanjiru }));
    expect(await desk.phones.sendFrom(wanjiru, '7FK')).toContain('7FK is yours');
  });

  it('one has it when two text at the same instant, and the other is told who', async () => {
    const desk = await withAlerts(raised('b1', worker));
    const answers = await Promise.all([desk.phones.sendFrom(wanjiru, '7FK'), desk.phones.sendFrom(njeri, '7FK')]);
    expect(answers.filter((text) => text.startsWith('7FK is yours'))).toHaveLength(1);
    expect(answers.filter((text) => /^7FK: Nurse (Wanjiru|Njeri) has it already/.test(text))).toHaveLength(1);
    const told = await desk.phones.takeTexts('worker');
    expect(told).toHaveLength(1);
  });

  it('the one who was asked hears that another has taken it', async () => {
    const desk = await withAlerts(raised('b1', worker));
    await desk.phones.sendFrom(njeri, '7FK');
    expect(await desk.phones.takeTexts(wanjiru)).toEqual([`7FK: Nurse Njeri has taken it, ${njeri}. Nothing more for you to do.`]);
  });

  it('one who examines babies herself is not asked about her own baby, and her words go to the nurse', async () => {
    const desk = await withAlerts(raised('b1', kazungu, { facility: 'tamarind', nurse: chebet }));
    expect(await desk.phones.sendFrom(kazungu, '7FK he is colder')).toContain('imetumwa kwa Nurse Chebet');
    expect(await desk.phones.takeTexts(chebet)).toEqual([`7FK, worker ${kazungu}: he is colder`]);
    expect(await stateOf(desk, 'b1')).toBe(`open ${chebet}`);
  });
});

describe('a nurse who passes an alert on', () => {
  it('is told who is asked, the worker too, and the next one is told all of it', async () => {
    const desk = await withAlerts(raised('b1', worker));
    expect(await desk.phones.sendFrom(wanjiru, '7FK NO')).toBe('7FK: Nurse Njeri is asked now.');
    expect(await desk.phones.takeTexts('worker')).toEqual([`7FK: Nurse Wanjiru cannot take it. Nurse Njeri is asked now. Ring ${njeri}.`]);
    expect(await desk.phones.takeTexts(njeri)).toEqual([expect.stringMatching(/^7FK URGENT .*No answer: Nurse Wanjiru\./)]);
    expect(await stateOf(desk, 'b1')).toBe(`open ${njeri}`);
  });

  it('after she took it leaves it open for the next', async () => {
    const desk = await withAlerts(raised('b1', worker));
    await desk.phones.sendFrom(wanjiru, '7FK');
    expect(await desk.phones.sendFrom(wanjiru, '7FK no.')).toBe('7FK: Nurse Njeri is asked now.');
    expect(await stateOf(desk, 'b1')).toBe(`open ${njeri}`);
  });

  it('and takes it later after all tells the worker again', async () => {
    const desk = await withAlerts(raised('b1', worker));
    for (const text of ['7FK', '7FK NO', '7FK']) await desk.phones.sendFrom(wanjiru, text);
    const told = await desk.phones.takeTexts('worker');
    expect(told.map((text) => text.split('.')[0])).toEqual([
      '7FK: Nurse Wanjiru has your alert',
      '7FK: Nurse Wanjiru cannot take it',
      '7FK: Nurse Wanjiru has your alert',
    ]);
  });

  it('twice passes it once', async () => {
    const desk = await withAlerts(raised('b1', worker));
    const first = await desk.phones.sendFrom(wanjiru, '7FK NO');
    expect(await desk.phones.sendFrom(wanjiru, '7FK NO')).toBe(first);
    expect((await desk.register.alertOf('b1'))?.asked).toEqual([wanjiru, njeri]);
  });

  it.each(['NO', 'no', 'Pass', 'NO!'])('may write it %j', async (word) => {
    const desk = await withAlerts(raised('b1', worker));
    expect(await desk.phones.sendFrom(wanjiru, `7FK ${word}`)).toBe('7FK: Nurse Njeri is asked now.');
  });

  it('is advising, when there is more than the word', async () => {
    const desk = await withAlerts(raised('b1', worker));
    expect(await desk.phones.sendFrom(wanjiru, '7FK no bath, skin to skin')).toBe('Sent to the worker.');
  });
});

describe('a code that two babies share', () => {
  const two = () => withAlerts(raised('b1', worker), raised('b2', '+254700555102', { at: now + 60_000 }));
  const which = /^7FK: more than one baby\..*101 \(Marula HC\).*102 \(Marula HC\)|^7FK: more than one baby\..*102.*101/;

  it('is asked back, and the last three digits of the worker tell which', async () => {
    const desk = await two();
    expect(await desk.phones.sendFrom(wanjiru, '7FK')).toMatch(which);
    expect(await desk.phones.sendFrom(wanjiru, '7FK 101')).toContain(`Worker ${worker}`);
    expect([await stateOf(desk, 'b1'), await stateOf(desk, 'b2')]).toEqual([`taken ${wanjiru}`, `open ${wanjiru}`]);
  });

  it('takes words after the digits', async () => {
    const desk = await two();
    expect(await desk.phones.sendFrom(wanjiru, '7FK 101: skin to skin')).toBe('Sent to the worker.');
    expect((await desk.phones.takeTexts('worker')).at(-1)).toBe('7FK, Nurse Wanjiru: skin to skin');
  });

  it('is asked back as long as she has the one and is asked about the other', async () => {
    const desk = await two();
    await desk.phones.sendFrom(wanjiru, '7FK 101');
    expect(await desk.phones.sendFrom(wanjiru, '7FK')).toMatch(which);
  });

  it('means the one that she has, when another person is asked about the other', async () => {
    const desk = await withAlerts(raised('b1', worker), raised('b2', '+254700555102', { nurse: njeri }));
    expect(await desk.phones.sendFrom(wanjiru, '7FK')).toContain(`Worker ${worker}`);
  });

  it('means the one of her facilities', async () => {
    const desk = await withAlerts(raised('b1', worker), raised('b2', '+254700555141', { facility: 'acacia', nurse: chebet }));
    expect(await desk.phones.sendFrom(wanjiru, '7FK DONE')).toBe('7FK closed.');
    expect([await stateOf(desk, 'b1'), await stateOf(desk, 'b2')]).toEqual(['closed', `open ${chebet}`]);
  });

  it('is not asked back for digits that are nobody of them', async () => {
    const desk = await two();
    expect(await desk.phones.sendFrom(wanjiru, '7FK 999 warm him')).toMatch(which);
  });
});

describe('words that go nowhere', () => {
  it('of a nurse are not lost in silence once the alert is closed', async () => {
    const desk = await withAlerts(raised('b1', worker));
    await desk.phones.sendFrom(wanjiru, '7FK DONE');
    expect(await desk.phones.sendFrom(wanjiru, '7FK warm him')).toBe('No open alert 7FK. Your words were NOT passed on: ring the worker.');
    expect(await desk.phones.sendFrom(njeri, '7FK')).toBe('No open alert 7FK.');
  });

  it('are not those of a worker while nobody has taken it: they go to the one who is asked', async () => {
    const desk = await withAlerts(raised('b1', worker));
    expect(await desk.phones.send('7FK he is blue now')).toBe(`7FK: sent to Nurse Wanjiru, who has not taken it yet. Ring ${wanjiru}.`);
    expect(await desk.phones.takeTexts(wanjiru)).toEqual([`7FK, worker ${worker}: he is blue now`]);
  });

  it('a lone digit is no advice', async () => {
    const desk = await withAlerts(raised('b1', worker));
    expect(await desk.phones.sendFrom(wanjiru, '7FK 1')).toMatch(/^7FK: no question waits for a digit/);
    expect(await stateOf(desk, 'b1')).toBe(`open ${wanjiru}`);
    expect(await desk.phones.takeTexts('worker')).toEqual([]);
  });

  it('a nurse is told to ring while the register is away, and it is logged', async () => {
    const desk = await withAlerts(raised('b1', worker));
    desk.register.isDown = true;
    expect(await desk.phones.sendFrom(wanjiru, '7FK')).toMatch(
      /^7FK: the register cannot be reached and nothing was noted\. Ring the worker/,
    );
    expect(desk.faults).toEqual(['the register is away; a nurse was told to ring the worker']);
  });
});
