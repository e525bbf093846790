// What is answered on a phone with a PIN whatever it is: a new baby, a sick one in hand, whom to ring, an alert that rings; and no more
// than that. Next: pass-pin.test.ts.

import { describe, expect, it } from 'vitest';
import { nurse, nurseWorker, otherNurse, raiseAlert, testHash, textAll, worker } from '../station.ts';
import { asked, beSilent, holder, hour, leftHalfway, open, pin } from './closed-phone.ts';

describe('what never waits for a PIN', () => {
  it('is a new baby, from its first question to a fit that is found', async () => {
    const station = open();
    await leftHalfway(station);
    expect(await station.text(holder, 'BABY')).not.toMatch(/PIN|Go on/);
    expect(await station.text(holder, '2 0430 39 3100')).not.toMatch(/PIN/);
    expect(await station.text(holder, '1')).toMatch(/REFER NOW/);
    expect(await station.textsOf(nurse)).toHaveLength(1);
  });

  it('is a new baby by the digit of the menu that was shown, or by 0 where the PIN is asked for', async () => {
    const station = open();
    await leftHalfway(station);
    await textAll(station, holder, ['MENU', pin]);
    beSilent(station);
    expect(await station.text(holder, '1')).toMatch(asked);
    expect(await station.text(holder, '2')).not.toMatch(/PIN/);
    const other = open();
    await leftHalfway(other);
    expect(await other.text(holder, 'MENU')).toMatch(asked);
    expect(await other.text(holder, '0')).not.toMatch(/PIN|Go on/);
  });

  it('is a sick baby: the advice goes on hours later, page by page and to the end of the check', async () => {
    const station = open();
    await textAll(station, holder, ['BABY 1 0430 39 3100', '1']);
    for (const text of ['1', 'WHY', '?', 'GO', '2', '0']) {
      beSilent(station, hour);
      expect(await station.text(holder, text)).not.toMatch(/PIN/);
    }
    for (const text of ['LIST', 'MENU']) expect(await station.text(holder, text)).toMatch(asked);
    expect(await station.text(holder, 'GO')).not.toMatch(/PIN/);
    beSilent(station, 24 * hour);
    expect(await station.text(holder, 'GO')).toMatch(asked);
  });

  it("is the nurse's number", async () => {
    const station = open();
    expect(await station.text(holder, 'NURSE')).toContain(nurse.phone);
  });

  it('is an alert that rings: a nurse takes it whatever her phone is', async () => {
    const shared = { ...nurse, pin: testHash(pin) };
    const station = open({}, [worker, shared, { ...otherNurse, pin: testHash(pin) }]);
    const code = await raiseAlert(station, worker);
    expect(await station.text(shared, code)).toContain(`${code} is yours`);
    expect(await station.text(shared, `${code} warm her`)).toMatch(/^Sent/);
    expect(await station.text(shared, `${code} DONE`)).toContain('closed');
  });

  it('is not what a nurse who examines babies may read of them', async () => {
    const shared = { ...nurseWorker, pin: testHash(pin) };
    const station = open({}, [worker, nurse, shared]);
    expect(await station.text(shared, 'LIST')).toMatch(asked);
    const code = await raiseAlert(station, worker);
    expect(await station.text(shared, code)).not.toMatch(/REFER|girl/);
  });

  it('is open no further than that: what was begun so is left to the PIN once the phone was silent', async () => {
    const station = open();
    await leftHalfway(station);
    await textAll(station, holder, ['BABY 2 0430 39 3100', '0']);
    expect(await station.text(holder, 'LIST')).toMatch(asked);
    expect(await station.text(holder, '0')).not.toMatch(/PIN/);
    await textAll(station, holder, ['BABY 2 0430 39 3100', '0']);
    beSilent(station);
    expect(await station.text(holder, '0')).toMatch(asked);
  });

  it('is no answer about a baby that is known, while a sick one is in hand', async () => {
    const station = open();
    await textAll(station, holder, ['LIST', pin, 'BABY 1 0430 39 3100', '1']);
    const [alert = ''] = await station.textsOf(nurse);
    expect(await station.text(holder, alert.slice(0, 3))).not.toMatch(/PIN/);
    beSilent(station);
    expect(await station.text(holder, '1')).toMatch(asked);
  });
});
