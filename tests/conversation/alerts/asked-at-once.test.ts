// An alert that several are asked to take at once, as follow-up.yaml may have it (`at-once`): from the worker's text to whoever takes it.
// Over the real register, with the people of the demonstration district, who are invented.

import { describe, expect, it } from 'vitest';
import { type Desk, openDesk } from '../../support/desk.ts';

const now = Date.parse('2026-11-25T09:30:00+03:00');
const worker = '+254700555101';
const wanjiru = '+254700555012';
const njeri = '+254700555021';
const amina = '+254700555023';
const coordinator = '+254700555030';
const everybody = [wanjiru, njeri, amina, coordinator];

interface Alerted {
  readonly desk: Desk;
  readonly code: string;
  /** Who was told first. */
  readonly told: readonly { readonly to: string; readonly text: string }[];
}

/** A desk that asks so many at once, where the worker has just found a fit. */
async function withAlert(alertAskedAtOnce: number): Promise<Alerted> {
  const desk = await openDesk({ worker, channel: 'sms', now, followUp: { alertAskedAtOnce } });
  for (const text of ['BABY 1 5h 39 3100', '1']) await desk.phones.send(text);
  const told = await desk.phones.takeAll((to) => to !== worker);
  return { desk, told, code: told[0]?.text.slice(0, 3) ?? '' };
}

/** Who of the others was sent a text since the last look. */
async function hearing(desk: Desk): Promise<string[]> {
  return (await desk.phones.takeAll((to) => to !== worker)).map(({ to }) => to).sort();
}

describe('an alert that several are asked to take at once', () => {
  it('is told to the first so many of the chain, and nobody is said not to have answered', async () => {
    const { told } = await withAlert(2);
    expect(told.map(({ to }) => to).sort()).toEqual([wanjiru, njeri]);
    for (const { text } of told) expect(text).toMatch(/URGENT(?!.*No answer)/s);
  });

  it('is told to all who can be asked where there are fewer', async () => {
    const { told } = await withAlert(9);
    expect(told.map(({ to }) => to).sort()).toEqual(everybody);
  });

  it('is told to one where it is left as it ships', async () => {
    const { told } = await withAlert(1);
    expect(told.map(({ to }) => to)).toEqual([wanjiru]);
  });

  it.each([
    ['the first of them', wanjiru, [njeri, amina]],
    ['another of them', njeri, [wanjiru, amina]],
    ['one who was not asked', coordinator, [wanjiru, njeri, amina]],
  ] as const)('is taken by %s, and each of the others hears that', async (_who, taker, others) => {
    const { desk, code } = await withAlert(3);
    expect(await desk.phones.sendFrom(taker, code)).toContain(`${code} is yours`);
    expect(await hearing(desk)).toEqual(others);
    expect(await desk.register.findAlerts(code)).toMatchObject([{ state: 'taken', takenBy: taker }]);
  });

  it('is closed by one of them without being taken, and the other hears that it is not hers any more', async () => {
    const { desk, code } = await withAlert(2);
    expect(await desk.phones.sendFrom(njeri, `${code} DONE`)).toBe(`${code} closed.`);
    expect(await hearing(desk)).toEqual([wanjiru]);
  });

  it('goes to the next so many after one time limit, and the worker hears of the first of them', async () => {
    const { desk } = await withAlert(2);
    desk.phones.wait('PT6M');
    const next = await desk.phones.takeAll();
    expect(next.map(({ to }) => to).sort()).toEqual([worker, amina, coordinator].sort());
    expect(next.find(({ to }) => to === coordinator)?.text).toContain('No answer: Nurse Wanjiru, Nurse Njeri.');
    expect(next.find(({ to }) => to === worker)?.text).toContain(`no answer from Nurse Wanjiru. Nurse Amina is asked now. Ring ${amina}`);
  });

  it('pauses when all were asked, and asks as many again', async () => {
    const { desk } = await withAlert(2);
    const heard: string[][] = [];
    for (const duration of ['PT6M', 'PT6M', 'PT16M']) {
      desk.phones.wait(duration);
      heard.push(await hearing(desk));
    }
    expect(heard).toEqual([[amina, coordinator], [], [wanjiru, njeri]]);
  });

  it('goes to one more when the first passes it on, and the others may still take it', async () => {
    const { desk, code } = await withAlert(2);
    expect(await desk.phones.sendFrom(wanjiru, `${code} NO`)).toBe(`${code}: Nurse Amina is asked now.`);
    expect(await hearing(desk)).toEqual([amina]);
    expect(await desk.phones.sendFrom(njeri, code)).toContain(`${code} is yours`);
    expect(await hearing(desk)).toEqual([amina]);
  });

  it('stays with the first when another of them passes it on', async () => {
    const { desk, code } = await withAlert(2);
    expect(await desk.phones.sendFrom(njeri, `${code} NO`)).toBe(`${code}: Nurse Wanjiru is asked now.`);
    expect(await desk.phones.takeAll()).toEqual([]);
    expect(await desk.register.findAlerts(code)).toMatchObject([{ nurse: wanjiru, askedNow: [wanjiru, njeri], state: 'open' }]);
  });

  it('brings the words of the worker to all who are asked until one has it, then to her alone', async () => {
    const { desk, code } = await withAlert(2);
    expect(await desk.phones.send(`${code} he is blue now`)).toContain('sent to Nurse Wanjiru, who has not taken it yet');
    expect(await hearing(desk)).toEqual([wanjiru, njeri]);
    await desk.phones.sendFrom(njeri, code);
    expect(await hearing(desk)).toEqual([wanjiru]);
    await desk.phones.send(`${code} he is pink again`);
    expect(await hearing(desk)).toEqual([njeri]);
  });

  it('brings what is found later to all who are asked', async () => {
    const { desk } = await withAlert(2);
    // On with the examination, and a temperature far too low.
    for (const text of ['2', '0', '0', '0', '33.5 44 132']) await desk.phones.send(text);
    expect(await hearing(desk)).toEqual([wanjiru, njeri]);
  });
});
