// What a nurse texts about an alert, in whatever form her phone writes it, and what the worker hears of it.

import { describe, expect, it } from 'vitest';
import { alertCodeIn } from '../../../src/conversation/alerts/nurse.ts';
import type { Register } from '../../../src/conversation/ports.ts';
import { nurse, openStation, otherNurse, raiseAlert, worker } from '../station.ts';

describe('the code of an alert', () => {
  it.each([
    ['7FK', '7FK', ''],
    ['7fk', '7FK', ''],
    ['  7fk  ', '7FK', ''],
    ['7FK.', '7FK', ''],
    ['7fk: skin to skin', '7FK', 'skin to skin'],
    ['7FK, Go NOW', '7FK', 'Go NOW'],
    ['7fk\nwarm him', '7FK', 'warm him'],
    ['7FK - İstanbul ward', '7FK', 'İstanbul ward'],
    ['7FK 36.8? recheck', '7FK', '36.8? recheck'],
  ])('is read from %j, with the words after it', (text, code, words) => {
    expect(alertCodeIn(text)).toEqual({ code, words });
  });

  it.each(['', 'hello', 'FK7', '7F', '7FKX', '1FK', '36.8 44', '0430 39', 'DONE', '👶🏿'])('is not in %j', (text) => {
    expect(alertCodeIn(text)).toBeNull();
  });
});

describe('a nurse', () => {
  it('takes an alert in small letters, and the worker hears who has it', async () => {
    const station = openStation();
    const code = await raiseAlert(station);
    expect(await station.text(nurse, code.toLowerCase())).toMatch(`${code} is yours`);
    expect(await station.textsOf(worker)).toEqual([expect.stringContaining(`${code}: ${nurse.name} has your alert. Ring ${nurse.phone}`)]);
  });

  it('who sends words with the code takes it and advises at once', async () => {
    const station = openStation();
    const code = await raiseAlert(station);
    expect(await station.text(nurse, `${code} skin to skin, go now`)).toMatch('Sent to the worker');
    expect(await station.textsOf(worker)).toEqual([expect.stringContaining(nurse.name), `${code}, ${nurse.name}: skin to skin, go now`]);
  });

  it('who texts again what she texted is answered the same, and the worker hears it once', async () => {
    const station = openStation();
    const code = await raiseAlert(station);
    const first = await station.text(nurse, code);
    expect(await station.text(nurse, code)).toBe(first);
    expect(await station.textsOf(worker)).toHaveLength(1);
  });

  it('cannot take, advise on, or close what another nurse has', async () => {
    const station = openStation();
    const code = await raiseAlert(station);
    await station.text(nurse, code);
    await station.textsOf(worker);
    for (const text of [code, `${code} wait for me`, `${code} DONE`])
      expect(await station.text(otherNurse, text)).toMatch(
        `${code}: ${nurse.name} has it already. Nothing was passed on. Ring ${nurse.phone}`,
      );
    expect(await station.textsOf(worker)).toEqual([]);
    expect(await station.register.findAlerts(code)).toMatchObject([{ state: 'taken', takenBy: nurse.phone }]);
  });

  it('who is a moment late is told who has it', async () => {
    const station = openStation({ register: (memory) => ({ ...memory, moveAlert: firstTakenBy(memory) }) });
    const code = await raiseAlert(station);
    expect(await station.text(nurse, code)).toMatch(`${code}: ${otherNurse.name} has it already. Nothing was passed on`);
    expect(await station.textsOf(worker)).toEqual([]);
  });

  it('who closes an alert a moment after another took it is told who has it', async () => {
    const station = openStation({ register: (memory) => ({ ...memory, moveAlert: firstTakenBy(memory) }) });
    const code = await raiseAlert(station);
    expect(await station.text(nurse, `${code} done`)).toMatch(`${code}: ${otherNurse.name} has it already. Nothing was passed on`);
    expect(await station.register.findAlerts(code)).toMatchObject([{ state: 'taken' }]);
  });

  it.each(['DONE', 'done', 'Done.', ' done '])('closes with %j, once', async (word) => {
    const station = openStation();
    const code = await raiseAlert(station);
    await station.text(nurse, code);
    expect(await station.text(nurse, `${code} ${word}`)).toBe(`${code} closed.`);
    expect(await station.textsOf(worker)).toEqual([
      expect.stringContaining('has your alert'),
      `${code}: ${nurse.name} has closed the alert.`,
    ]);
    expect(await station.register.findAlerts(code)).toEqual([]);
  });

  it('whose text names no alert is told how to take one', async () => {
    const station = openStation();
    for (const text of ['hello', '', '👶🏿', '9'.repeat(1000)])
      expect(await station.text(nurse, text)).toMatch(/^Text the code of an alert/);
  });
});

/** A register in which the other nurse takes each alert just before the move that is asked for. */
function firstTakenBy(memory: Register): Register['moveAlert'] {
  return async (key, from, to, by, at, entries) => {
    await memory.moveAlert(key, 'open', 'taken', otherNurse.phone, at, []);
    return memory.moveAlert(key, from, to, by, at, entries);
  };
}
