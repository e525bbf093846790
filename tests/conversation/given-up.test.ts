// Where examinations are given up: each that was begun is looked at a day later, in its session, and counted by the step at which
// it stands. Nobody is told, and a phone that is busy loses nothing.

import { describe, expect, it } from 'vitest';
import { type Desk, openDesk } from '../support/desk.ts';

const now = Date.parse('2026-11-25T09:30:00+03:00');
const open = (): Promise<Desk> => openDesk({ worker: '+254700555101', channel: 'sms', now });
const begun = ({ register }: Desk) => register.rows('select flow, state, step from begun order by at');

/** Waits, and does what is due. */
async function waitHours(desk: Desk, hours: number): Promise<void> {
  desk.phones.wait(`PT${hours}H`);
  await desk.phones.takeTexts('worker');
}

describe('an examination that was begun', () => {
  it('is given up at the step where it stands when nothing was heard for a day', async () => {
    const desk = await open();
    await desk.phones.send('BABY 1 0430 39 3100');
    await desk.phones.send('0');
    await waitHours(desk, 22);
    expect(await begun(desk)).toEqual([{ flow: 'first-day-exam', state: 'open', step: null }]);
    await waitHours(desk, 5);
    expect(await begun(desk)).toEqual([{ flow: 'first-day-exam', state: 'given-up', step: 'pregnancy' }]);
    expect(desk.faults).toEqual([]);
  });

  it('has ended once its result is in the register', async () => {
    const desk = await open();
    for (const text of ['BABY', 'GIRL 0430 39 3100 T36.8 R44 P132', '0 PREG 0 BIRTH 0']) await desk.phones.send(text);
    await desk.phones.send('0 COLOUR 0 MOVES 0 SKIN 0 HEAD 0 EYES 0 FEEDING 0 BELLY 0 SPINE 0 GENITALS 0 LIMBS 0 CARE 0');
    await waitHours(desk, 26);
    expect(await begun(desk)).toEqual([{ flow: 'first-day-exam', state: 'ended', step: null }]);
  });

  it('is not given up while something is heard from its phone, and is after three days whatever is heard', async () => {
    const desk = await open();
    await desk.phones.send('BABY 1 0430 39 3100');
    for (const hours of [22, 22, 22]) {
      await waitHours(desk, hours);
      expect(await begun(desk)).toMatchObject([{ state: 'open' }]);
      await desk.phones.send('MENU');
    }
    await waitHours(desk, 9);
    expect(await begun(desk)).toEqual([{ flow: 'first-day-exam', state: 'given-up', step: 'danger' }]);
  });

  it('is given up when another was begun and it was not taken up again', async () => {
    const desk = await open();
    await desk.phones.send('BABY 1 0430 39 3100');
    await desk.phones.send('BABY 2 0530 38 2900');
    desk.phones.wait('PT22H');
    await desk.phones.send('0');
    await waitHours(desk, 5);
    expect(await begun(desk)).toMatchObject([{ state: 'given-up', step: 'danger' }, { state: 'open' }]);
  });

  it('is begun once, however often a question is answered or a message delivered, and not by a correction', async () => {
    const desk = await openDesk({ worker: '+254700555101', channel: 'sms', now, deliveries: 2 });
    for (const text of ['BABY', '1 0430 39 3100', '0', 'BACK', '0', '?', 'MENU']) await desk.phones.send(text);
    await waitHours(desk, 0);
    expect(await begun(desk)).toHaveLength(1);
  });

  it('is begun again as a recheck', async () => {
    const desk = await open();
    await desk.phones.send('BABY GIRL 0430 39 3100 T36.2 R44 P132');
    await desk.phones.send('0 PREG 0 BIRTH 0');
    await desk.phones.send('0 COLOUR 0 MOVES 0 SKIN 0 HEAD 0 EYES 0 FEEDING 0 BELLY 0 SPINE 0 GENITALS 0 LIMBS 0 CARE 0');
    await desk.phones.send('RECHECK');
    await waitHours(desk, 26);
    expect(await begun(desk)).toMatchObject([
      { flow: 'first-day-exam', state: 'ended' },
      { flow: 'recheck', state: 'given-up' },
    ]);
  });
});
