// follow-up.yaml: what the shipped one says, and what a coordinator is told of each fault in hers.

import { describe, expect, it } from 'vitest';
import type { Diagnostic } from '../../src/authoring/diagnostic.ts';
import { readFollowUp } from '../../src/authoring/read-follow-up.ts';
import { readYaml } from '../../src/authoring/yaml-source.ts';
import { loadProtocol } from '../../src/cli/load-protocol.ts';
import type { FollowUp } from '../../src/on-call/follow-up.ts';
import { flowsFolder } from '../support/default-protocol.ts';
import { codesOf, marked } from './marked-yaml.ts';

const name = 'follow-up.yaml';
const shipped = loadProtocol(`${flowsFolder}/protocol`).files.find((file) => file.name === name)?.text ?? '';

function read(text: string): { followUp: FollowUp | null; faults: Diagnostic[] } {
  const faults: Diagnostic[] = [];
  const top = readYaml({ name, text }, (fault) => faults.push(fault));
  return { followUp: top === null ? null : readFollowUp(top, (fault) => faults.push(fault)), faults };
}

describe('the shipped follow-up', () => {
  const { followUp, faults } = read(shipped);

  it('is read without a word', () => {
    expect(faults).toEqual([]);
    expect(followUp).toMatchObject({
      alertAskedAtOnce: 1,
      alertTakenWithinMinutes: 5,
      travelMinutes: 120,
      refusalVisit: { everyMinutes: 1440, times: 7 },
      graceMinutes: { recheck: 60, contact: 1440 },
      quiet: { fromMinute: 1260, toMinute: 360, alwaysWithinMinutes: 360 },
    });
    expect(followUp?.hasLeft.urgent[0]).toEqual({ afterMinutes: 30, asks: ['worker'] });
  });

  it('asks one after another where an older file does not say how many at once', () => {
    const older = read(edited('  at-once: 1', '  # at-once: 1'));
    expect(older.faults).toEqual([]);
    expect(older.followUp?.alertAskedAtOnce).toBe(1);
    expect(read(edited('at-once: 1', 'at-once: 4')).followUp?.alertAskedAtOnce).toBe(4);
  });

  it('tells the nurse of every urgent referral that nobody confirms', () => {
    for (const ladder of [followUp?.hasLeft.urgent, followUp?.hasArrived.urgent])
      expect(ladder?.some(({ asks }) => asks.includes('nurse') && asks.includes('coordinator'))).toBe(true);
  });

  it('says of each of its times where it comes from', () => {
    const timed = shipped.split('\n').filter((line) => /:.*\bP[T\d]/.test(line) && !line.trim().startsWith('#'));
    const block = (line: string): string => {
      const all = shipped.split('\n');
      const from = all.indexOf(line);
      return [line, ...all.slice(0, from).reverse().slice(0, 7)].join('\n');
    };
    expect(timed.length).toBeGreaterThan(20);
    for (const line of timed) expect(block(line), line).toMatch(/no source|common practice, no source|FU-11/i);
  });
});

/** The shipped file with one piece replaced by another, the fault marked. */
function edited(from: string, to: string): string {
  if (!shipped.includes(from)) throw new Error(`follow-up.yaml does not hold "${from}"`);
  return shipped.replace(from, to);
}

describe('a follow-up with a fault', () => {
  it.each<[code: string, from: string, wrong: string, right: string]>([
    ['follow-up/not-a-time', 'taken-within: PT5M', 'taken-within: «5 minutes»', 'taken-within: PT7M'],
    ['follow-up/not-a-time', 'taken-within: PT5M', 'taken-within: «PT0M»', 'taken-within: PT1M'],
    ['follow-up/not-a-time', 'taken-within: PT5M', 'taken-within: «P»', 'taken-within: P1D'],
    ['follow-up/not-a-time', 'taken-within: PT5M', 'taken-within: «P1DT»', 'taken-within: P1DT6H'],
    ['follow-up/not-a-time', 'after: PT30M, asks: [worker]', 'after: «30M», asks: [worker]', 'after: PT20M, asks: [worker]'],
    ['follow-up/out-of-order', 'after: PT1H, asks: [worker]', 'after: «PT30M», asks: [worker]', 'after: PT31M, asks: [worker]'],
    ['follow-up/asks-nobody', 'after: P4D, asks: [nurse]', 'after: P4D, «asks»: []', 'after: P4D, asks: nurse'],
    ['yaml/unknown-word', 'after: P4D, asks: [nurse]', 'after: P4D, asks: [«nurce»]', 'after: P4D, asks: [coordinator]'],
    ['yaml/unknown-field', '  round-pause:', '  «round-paws»: PT1H\n  round-pause:', '  round-pause:'],
    ['follow-up/not-a-count', 'times: 7', 'times: «0»', 'times: 3'],
    ['follow-up/not-a-count', 'times: 7', 'times: «2.5»', 'times: 2'],
    ['follow-up/not-a-count', 'at-once: 1', 'at-once: «0»', 'at-once: 2'],
    ['follow-up/not-a-count', 'at-once: 1', 'at-once: «1.5»', 'at-once: 9'],
    ['yaml/not-a-number', 'at-once: 1', 'at-once: «all»', 'at-once: 3'],
    ['yaml/not-a-number', 'times: 7', 'times: «seven»', 'times: 7'],
    ['follow-up/not-a-time-of-day', 'from: "21:00"', 'from: «"24:00"»', 'from: "00:00"'],
    ['follow-up/not-a-time-of-day', 'to: "06:00"', 'to: «6»', 'to: "06:30"'],
  ])('%s points at it, and is silent once it is mended', (code, from, wrong, right) => {
    const { text, range } = marked(edited(from, wrong));
    const { followUp, faults } = read(text);
    expect(faults[0]).toMatchObject({ code, file: name, range, severity: 'error' });
    expect(codesOf(faults)).toEqual([code]);
    expect(followUp).toBeNull();
    expect(codesOf(read(edited(from, right)).faults)).toEqual([]);
  });

  it('is refused when an urgent ladder never tells the nurse', () => {
    const text = edited('asks: [nurse, coordinator]', 'asks: [coordinator]').replace('asks: [worker, nurse]', 'asks: [worker]');
    const { followUp, faults } = read(text);
    expect(codesOf(faults)).toEqual(['follow-up/nurse-never-told']);
    expect(faults[0]?.fix).toBe('Add nurse to "asks" of the last step.');
    expect(followUp).toBeNull();
  });

  it.each([
    'taken-within',
    'round-pause',
    'travel',
    'outcome-not-known-after',
    'refusal-visit',
    'grace',
    'quiet',
    'contact-when-age-not-known',
  ])('names "%s" when it is missing, and nothing else', (field) => {
    const text = shipped.replace(new RegExp(`^ *${field}: .*\n`, 'm'), '');
    const { followUp, faults } = read(text);
    expect(faults.map(({ code, what }) => [code, what])).toEqual([['yaml/field-missing', `"${field}" is missing here.`]]);
    expect(followUp).toBeNull();
  });

  it.each([['reminders:'], ['referrals:'], ['alerts:']])('names "%s" once when the whole part is missing', (part) => {
    const parts = shipped.split(/^(?=[a-z]+:)/m).filter((one) => !one.startsWith(part));
    expect(read(parts.join('')).faults.map(({ what }) => what)).toEqual([`"${part.slice(0, -1)}" is missing here.`]);
  });

  it('is nothing when there are no steps', () => {
    const text = shipped.replace(/outcome:\n( +- .*\n)+/, 'outcome: []\n');
    expect(codesOf(read(text).faults)).toEqual(['follow-up/no-steps']);
  });

  it('never throws, whatever stands there', () => {
    for (const text of ['', '[]', 'alerts: 5', 'alerts: {}', 'referrals: [1, 2]', 'reminders: { quiet: [] }', '- after']) {
      expect(read(text).followUp, text).toBeNull();
      expect(read(text).faults.length, text).toBeGreaterThan(0);
    }
  });
});
