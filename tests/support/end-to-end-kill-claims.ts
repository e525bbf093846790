// What must hold after a run of kills, whatever died: of examinations, of alerts, of texts. It is read in the register past the
// servers, and at the gateway. Next: end-to-end-register.ts, end-to-end-gateway.ts.

import { expect } from 'vitest';
import { textReference } from '../../src/conversation/text-reference.ts';
import type { TextTaken } from './end-to-end-gateway.ts';
import type { Answered } from './end-to-end-kill-nurses.ts';
import type { Worker } from './end-to-end-kill-workers.ts';
import { NUMBER_OF_WORK } from './end-to-end-killed-processes.ts';
import type { TextRow } from './end-to-end-register.ts';
import type { Stack } from './end-to-end-stack.ts';

/** Every examination whose result was read is in the register, once, and no other. */
export async function expectEachExaminationOnce({ register }: Stack, examined: readonly Worker[]): Promise<void> {
  for (const { phone, results } of examined) {
    const rows = await register.examinations(phone);
    expect(rows.map(({ code }) => code).sort()).toEqual([...results].sort());
  }
}

/** One alert for each baby, asked in the order of the rota and once each, with one taker, who alone was told so. */
export async function expectOneTakerEach(
  { register, programme }: Stack,
  examined: readonly Worker[],
  answered: ReadonlyMap<string, Answered>,
): Promise<void> {
  const alerts = await register.allAlerts();
  expect(alerts.map(({ code }) => code).sort()).toEqual(examined.flatMap(({ results }) => results).sort());
  for (const { key, code, taken_by } of alerts) {
    const { silent = 0, told = new Map<string, string>() } = answered.get(code) ?? {};
    const toldThat = (words: string): string[] => [...told].filter(([, reply]) => reply.includes(words)).map(([nurse]) => nurse);
    expect(toldThat('is yours'), code).toEqual([taken_by]);
    expect(toldThat('has it already'), code).toHaveLength(1);
    const moves = (await register.movesOf(key)).filter(({ state_from }) => state_from !== null);
    expect(moves, code).toEqual([{ state_from: 'open', state_to: 'taken', by: taken_by }]);
    const asked = await register.askedOf(key);
    expect(asked, code).toEqual(programme.nurses.slice(0, asked.length));
    expect(asked.length, code).toBeGreaterThan(silent);
  }
}

interface Told extends TextRow {
  readonly sendings: readonly TextTaken[];
}

/**
 * Each urgent text reached the gateway, and came twice only while it was not known to be sent. No other came twice; one that may
 * not have come at all was in a dying hand, and the register says so.
 */
export async function expectTextsAsPromised({ register, gateway }: Stack): Promise<{ texts: number; twice: number; perhaps: number }> {
  const sendings = new Map<string, TextTaken[]>();
  for (const one of gateway.taken) sendings.set(one.reference, [...(sendings.get(one.reference) ?? []), one]);
  const texts = (await register.allTexts()).map((row): Told => ({ ...row, sendings: sendings.get(textReference(row.key)) ?? [] }));
  expect(texts.reduce((sum, one) => sum + one.sendings.length, 0)).toBe(gateway.taken.length);
  expect(texts.filter((text) => !isAsPromised(text))).toEqual([]);
  expect(texts.filter(isSentAfterItWasSettled)).toEqual([]);
  return {
    texts: texts.length,
    twice: texts.filter((one) => one.sendings.length > 1).length,
    perhaps: texts.filter(({ state }) => state === 'unknown').length,
  };
}

function isAsPromised({ urgent, state, sendings: { length: times } }: Told): boolean {
  if (urgent) return state === 'sent' && times > 0;
  return state === 'sent' ? times === 1 : state === 'unknown' && times < 2;
}

/**
 * By a process at work. A server sends what it cannot write down, and cannot know; that is settled as of when the server wrote it,
 * which may be while a process at work has it in hand. One that is unknown was marked just before it went out.
 */
function isSentAfterItWasSettled({ state, attempts, at, settled_at, gateway_id, sendings }: Told): boolean {
  const settledBy = sendings.find(({ id }) => id === gateway_id);
  const isByServer = settled_at === at || (settledBy !== undefined && settledBy.from !== NUMBER_OF_WORK);
  if (state === 'unknown' || isByServer) return false;
  const byWork = sendings.filter(({ from }) => from === NUMBER_OF_WORK);
  return byWork.length > attempts || byWork.some((one) => one.at > (settled_at ?? 0));
}
