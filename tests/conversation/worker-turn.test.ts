// A worker speaks of babies while the register is away: she is told, nothing is lost, and her examination can be gone on with.

import { describe, expect, it } from 'vitest';
import { openDesk } from '../support/desk.ts';

const now = Date.parse('2026-11-25T09:30:00+03:00');
const open = () => openDesk({ worker: '+254700555101', channel: 'sms', now });

describe('while the register is away', () => {
  it.each(['LIST', '7FK', '7FK 1', 'RECHECK 7FK'])('%s is answered with whom to ring, and with the baby to go on with', async (text) => {
    const desk = await open();
    await desk.phones.send('BABY 1 0430 39 3100');
    desk.register.isDown = true;
    expect(await desk.phones.send(text)).toContain('The register cannot be reached now. Send this again later.');
    expect(await desk.phones.send(text)).toContain('+254700555012');
    expect(await desk.phones.send(text)).toContain('1 Go on: girl 5 h, at danger signs');
    expect(await desk.phones.send('1')).toContain('DANGER');
    expect(await desk.phones.send('0')).toContain('PREGNANCY.');
    desk.register.isDown = false;
    expect(await desk.phones.send('LIST')).toContain('Nothing is due');
    expect(await desk.phones.send('0')).toContain('BIRTH.');
  });

  it('words for a nurse are said not to be sent', async () => {
    const desk = await open();
    await desk.phones.send('MENU');
    desk.register.isDown = true;
    expect(await desk.phones.send('7FK breathes fast')).toContain('NOT SENT to a nurse. Ring the nurse: +254700555012. PIPIT. 1 New baby');
  });
});

describe('words after a code', () => {
  it('go to the nurse once, however often they are delivered', async () => {
    const desk = await openDesk({ worker: '+254700555101', channel: 'sms', now, deliveries: 2 });
    await desk.phones.send('BABY 1 0430 39 3100');
    await desk.phones.send('1');
    const [alert = ''] = await desk.phones.takeTexts('nurse');
    expect(await desk.phones.send(`${alert.slice(0, 3)} feeds a little`)).toContain('sent to Nurse Wanjiru');
    expect(await desk.phones.takeTexts('nurse')).toEqual([`${alert.slice(0, 3)}, worker +254700555101: feeds a little`]);
  });

  it('that no nurse has an alert for are said not to be sent', async () => {
    const desk = await open();
    await desk.phones.send('BABY GIRL 0430 39 3100 T36.8 R44 P132');
    await desk.phones.send('0 PREG 0 BIRTH 0');
    const result = await desk.phones.send('0 COLOUR 0 MOVES 0 SKIN 0 HEAD 0 EYES 0 FEEDING 0 BELLY 0 SPINE 0 GENITALS 0 LIMBS 0 CARE 0');
    expect(await desk.phones.send(`${result.slice(0, 3)} feeds well`)).toContain('NOT SENT to a nurse');
  });
});
