// A plan follows from what is given by arithmetic that can be done by hand, and its nurses from Erlang's formula.

import { describe, expect, it } from 'vitest';
import { fewestServers, probabilityWithin } from '../../src/planning/erlang.ts';
import { alertsInBusyTime, type Needs, planFor } from '../../src/planning/plan.ts';

/** Chosen so that sums come out even; a year has 8,766 hours. */
const needs: Needs = {
  ...{ birthsPerYear: 876_600, contactsPerBaby: 4, peakFactor: 3, urgentShare: 0.1, standardError: 0.01 },
  uses: [
    { share: 0.75, channel: 'sms', exchanges: 20, segmentsIn: 20, segmentsOut: 24, calls: 0 },
    { share: 0.25, channel: 'ussd', exchanges: 22, segmentsIn: 0, segmentsOut: 0, calls: 2 },
  ],
  prices: { segmentIn: 0.01, segmentOut: 0.02, call: 0.05 },
  measured: {
    ...{ turnsPerSecond: 100, onCores: 2, sessionBytes: 1000, replyBytes: 400, registerBytesPerExamination: 9000 },
    ...{ textsOfItsOwnPerBaby: 8, segmentsOfItsOwnPerBaby: 9 },
  },
  ...{ busiestCore: 0.5, examinationsPerPhone: 300, replyDays: 3, busyMinutes: 20, takenWithinMinutes: 5, level: 0.95, desks: 100 },
};

describe('a plan', () => {
  const plan = planFor(needs);

  it('counts examinations, turns and cores', () => {
    expect(plan.examinationsPerYear).toBe(3_506_400);
    expect(plan.turnsPerExamination).toBe(20.5);
    // 400 examinations an hour.
    expect(plan.turnsPerSecond).toBeCloseTo((400 * 20.5) / 3600, 12);
    expect(plan.turnsPerSecondAtPeak).toBeCloseTo((1200 * 20.5) / 3600, 12);
    expect(plan.turnsPerSecondPerCore).toBe(50);
    expect(plan.cores).toBe(1);
    expect(planFor({ ...needs, birthsPerYear: 100 * needs.birthsPerYear }).cores).toBe(Math.ceil((100 * 1200 * 20.5) / 3600 / 25));
  });

  it('counts what a baby costs in texts, segments and calls, and in money', () => {
    expect(plan.textsInPerBaby).toBeCloseTo(4 * 0.75 * 20, 12);
    expect(plan.textsOutPerBaby).toBeCloseTo(4 * 0.75 * 20 + 8, 12);
    expect(plan.segmentsInPerBaby).toBeCloseTo(60, 12);
    expect(plan.segmentsOutPerBaby).toBeCloseTo(72 + 9, 12);
    expect(plan.screensPerBaby).toBeCloseTo(22, 12);
    expect(plan.callsPerBaby).toBeCloseTo(2, 12);
    expect(plan.costPerBaby).toBeCloseTo(60 * 0.01 + 81 * 0.02 + 2 * 0.05, 12);
  });

  it.each([['segmentIn'], ['segmentOut'], ['call']] as const)('does not know the cost without the price %s', (price) => {
    expect(planFor({ ...needs, prices: { ...needs.prices, [price]: undefined } }).costPerBaby).toBeNull();
  });

  it('needs no price of what nobody uses', () => {
    const [bySms] = needs.uses;
    if (bySms === undefined) throw new Error('No use.');
    const { costPerBaby } = planFor({ ...needs, uses: [{ ...bySms, share: 1 }], prices: { segmentIn: 0.01, segmentOut: 0.02 } });
    expect(costPerBaby).toBeCloseTo(80 * 0.01 + 105 * 0.02, 12);
  });

  it('counts memory: sessions of phones, and the replies that are remembered', () => {
    expect(plan.phones).toBe(11_688);
    expect(plan.redisBytes).toBeCloseTo(11_688 * 1000 + 9600 * 20.5 * 3 * 400, 3);
    expect(plan.registerBytesPerYear).toBe(3_506_400 * 9000);
  });

  it('asks for nurses at the peak, together and apart', () => {
    expect(plan.alertsPerYear).toBeCloseTo(350_640, 6);
    expect(plan.alertsPerHourAtPeak).toBeCloseTo(120, 9);
    expect(plan.pooled.erlangsEach).toBeCloseTo(40, 9);
    expect(plan.divided.erlangsEach).toBeCloseTo(0.4, 9);
    for (const { erlangsEach, nursesEach, nurses, within, desks } of [plan.pooled, plan.divided]) {
      expect(nurses).toBe(desks * nursesEach);
      expect(within).toBe(probabilityWithin(nursesEach, erlangsEach, 0.25));
      expect(within).toBeGreaterThanOrEqual(0.95);
      expect(probabilityWithin(nursesEach - 1, erlangsEach, 0.25)).toBeLessThan(0.95);
    }
    expect(plan.divided.nurses).toBeGreaterThan(plan.pooled.nurses);
  });

  it('asks for desks so small that the first nurse is enough', () => {
    const { desks, erlangs } = plan.firstIsEnough;
    expect([fewestServers(40 / desks, 0.25, 0.95), fewestServers(40 / (desks - 1), 0.25, 0.95)]).toEqual([1, 2]);
    expect(40 / desks).toBeLessThanOrEqual(erlangs);
  });

  it('counts how many nurses are busy at once, with two standard errors more', () => {
    expect(alertsInBusyTime(needs)).toBeCloseTo(40 * 1.2, 9);
  });

  it('asks for more nurses if more examinations come out urgent than the walks found', () => {
    const more = planFor({ ...needs, urgentShare: 0.12, standardError: 0 });
    expect([plan.pooled.nursesIfMore, plan.divided.nursesIfMore]).toEqual([more.pooled.nurses, more.divided.nurses]);
    expect(more.pooled.nursesIfMore).toBe(more.pooled.nurses);
  });

  it('of one desk says the same twice, and where nothing is urgent somebody is on call all the same', () => {
    const one = planFor({ ...needs, desks: 1 });
    expect(one.divided).toEqual(one.pooled);
    const none = planFor({ ...needs, urgentShare: 0, standardError: 0 });
    expect([none.pooled.nurses, none.divided.nurses, none.pooled.within]).toEqual([1, 100, 1]);
  });
});
