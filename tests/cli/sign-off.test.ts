// What must be signed off: the open decisions with every value that hangs on them, and every row from memory or of our own
// choice, none that was read in its source alone.

import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { loadProtocol } from '../../src/cli/load-protocol.ts';
import { renderItems, rowsToSignOff, signOff } from '../../src/cli/sign-off.ts';
import { flowsFolder } from '../support/default-protocol.ts';

const { files, read } = loadProtocol(`${flowsFolder}/protocol`);
if (read.kind !== 'protocol') throw new Error('The protocol in flows/ cannot be read.');
const { protocol, review } = read;
const rows = rowsToSignOff(protocol, review.uses);

describe('the decisions to sign off', () => {
  const lines = renderItems(review.signOff, rows, files);
  const under = (id: string): string[] => {
    const from = lines.findIndex((line) => line.startsWith(`${id}  `));
    const to = lines.findIndex((line, at) => at > from && !line.startsWith('    '));
    return lines.slice(from + 1, to).map((line) => line.trim());
  };

  it('are the eleven of the reference, in its order', () => {
    expect(review.signOff.map(({ id }) => id)).toEqual(Array.from({ length: 11 }, (_, i) => `SIGN-${String(i + 1).padStart(2, '0')}`));
    expect(lines.at(-1)).toBe('11 decisions to sign off.');
  });

  it('touch at least one value or row each', () => {
    expect(review.signOff.filter(({ touches, proofs }) => touches.length + proofs.length === 0)).toEqual([]);
  });

  it('name each value by a file and a line on which it stands', () => {
    const printed = lines
      .map((line) => /^ {4}flows\/protocol\/(\S+):(\d+) {2}(.+?) {2}(.+?)(\.\.\.)?$/.exec(line))
      .filter((found) => found !== null);
    expect(printed.length).toBeGreaterThan(100);
    for (const [, file, line, , words] of printed) {
      const text = readFileSync(`${flowsFolder}/protocol/${file}`, 'utf8').split('\n')[Number(line) - 1];
      expect(text).toContain(words);
    }
  });

  it.each([
    ['SIGN-01', /doses\.yaml:\d+ {2}ABX-06, dose gentamicin .*amount: 16,/],
    ['SIGN-01', /doses\.yaml:\d+ {2}ABX-08c, dose amoxicillin .*amount: 250,/],
    ['SIGN-02', /doses\.yaml:\d+ {2}switch gentamicin-table .*amount: 32/],
    ['SIGN-02', /ABX-20, no rule/],
    ['SIGN-03', /feeds\.yaml:\d+ {2}VOL-11, feeds pcpnc15 .*ml-per-feed: \[20,/],
    ['SIGN-04', /bilirubin\.yaml:\d+ {2}table rec12 .*exchange-at-risk: 170/],
    ['SIGN-05', /bilirubin\.yaml:\d+ {2}table nice98 .*from-hours: 96/],
    ['SIGN-05', /bilirubin\.yaml:\d+ {2}table nice98 .*before-weeks: 38/],
    ['SIGN-06', /limits\.yaml:\d+ {2}limit low-glucose {2}from: 1\.4/],
    ['SIGN-06', /severe-glucose-line: under-1\.1, from: 1\.1/],
    ['SIGN-07', /FW-03, no rule/],
    ['SIGN-07', /RESP-05, classification pneumonia-fast-breathing-only .*recheck: P3D/],
    ['SIGN-08', /limits\.yaml:\d+ {2}limit high-temperature {2}from: 38\.0/],
    ['SIGN-08', /limits\.yaml:\d+ {2}limit prolonged-jaundice {2}over: 336/],
    ['SIGN-08', /conditions\.yaml:\d+ {2}limit early-jaundice/],
    ['SIGN-08', /switch cord-pus .*switch cord-pus is urgent/],
    ['SIGN-09', /doses\.yaml:\d+ {2}switch syphilis-dose .*per-kg: 100000/],
    ['SIGN-10', /^the \d+ rows listed below$/],
    ['SIGN-11', /doses\.yaml:\d+ {2}RISK-05, dose nevirapine .*amount: 15/],
  ])('lead to the value: %s, %s', (id, value) => {
    expect(under(id).some((line) => value.test(line))).toBe(true);
  });

  it('show a line once, however many rows lead to it', () => {
    for (const { touches } of review.signOff) {
      const places = touches.map(({ file, range }) => `${file}:${range.start.line}`);
      expect(new Set(places).size).toBe(places.length);
    }
  });
});

describe('the rows to sign off', () => {
  it('are all that are not proved by their source, with what each says of itself', () => {
    const unproved = [...protocol.rows].filter(([, { proof }]) => proof.some((one) => one !== 'seen')).map(([row]) => row);
    expect(rows.map(({ row }) => row)).toEqual(unproved);
    expect(rows.filter(({ source }) => source === '')).toEqual([]);
  });

  it('say where they are used', () => {
    const usedBy = rows.find(({ row }) => row === 'RESP-24')?.usedBy ?? [];
    expect(usedBy.some((use) => /^classification nasal-flaring \(flows\/protocol\/classifications\/30-.*\.yaml:\d+\)$/.test(use))).toBe(
      true,
    );
    expect(rows.find(({ row }) => row === 'RESP-01')).toBeUndefined();
  });
});

describe('pipit check --sign-off', () => {
  it('prints the decisions, then the rows, and ends with 0', () => {
    const printed: string[] = [];
    expect(signOff({ flows: flowsFolder }, (line) => printed.push(line))).toBe(0);
    expect(printed[0]).toMatch(/^SIGN-01 {2}/);
    expect(printed).toContain('11 decisions to sign off.');
    expect(printed.at(-1)).toBe(`${rows.length} rows to sign off.`);
  });
});
