// What is said of a reference case that cannot be read: each code with a wrong example and the same mended.

import { describe, expect, it } from 'vitest';
import type { Diagnostic } from '../../src/authoring/diagnostic.ts';
import { readReferenceCases } from '../../src/authoring/read-reference-cases.ts';
import { defaultProtocol } from '../support/default-protocol.ts';
import { codesOf, marked } from './marked-yaml.ts';

const file = 'flows/reference-cases/try.yaml';

const fields = {
  id: 'cold',
  title: '35.2 °C',
  rows: '[TEMP-04]',
  input: '{ findings: { temperature: 35.2 } }',
  expected: '{ urgency: urgent, classifications: [low-body-temperature] }',
};

/** A file of one case, with these fields in place of good ones. */
function fileOf(wrong: Partial<Record<keyof typeof fields, string>>): string {
  const [first, ...rest] = Object.entries({ ...fields, ...wrong }).map(([name, value]) => `${name}: ${value}`);
  return `baby: { ageHours: 30, unlisted: normal }\ncases:\n  - ${first}\n${rest.map((line) => `    ${line}\n`).join('')}`;
}

function faultsIn(text: string): Diagnostic[] {
  const faults: Diagnostic[] = [];
  readReferenceCases([{ name: file, text }], defaultProtocol, (fault) => faults.push(fault));
  return faults;
}

const pairs: readonly (readonly [code: string, field: keyof typeof fields, wrong: string, right: string])[] = [
  ['floor/unknown-row', 'rows', '[«TEMP-99»]', '[C-01, TEMP-04]'],
  ['floor/unknown-classification', 'expected', '{ urgency: urgent, classifications: [«low-body-temp»] }', fields.expected],
  [
    'floor/unknown-classification',
    'expected',
    '{ urgency: urgent, classifications: { «low-body-temp»: urgent } }',
    '{ urgency: urgent, classifications: { low-body-temperature: urgent } }',
  ],
  [
    'floor/unknown-classification',
    'expected',
    '{ urgency: urgent, not: [«mild-hypotermia»] }',
    '{ urgency: urgent, not: [mild-hypothermia] }',
  ],
  [
    'floor/unknown-finding',
    'expected',
    '{ urgency: incomplete, missing: [«respiratry-rate»] }',
    '{ urgency: incomplete, missing: [respiratory-rate, ageHours] }',
  ],
  ['floor/not-a-time', 'expected', '{ urgency: treat, recheck: «1 hour» }', '{ urgency: treat, recheck: PT1H }'],
  ['floor/not-a-time', 'expected', '{ urgency: refer, within: «PT» }', '{ urgency: refer, within: P2D }'],
  ['floor/not-readable', 'input', '{ findings: { temperature: «52» } }', fields.input],
  ['floor/not-readable', 'input', '{ findings: { «temperatur»: 35.2 } }', fields.input],
  ['floor/not-readable', 'input', '{ ageHours: «2000», findings: {} }', '{ ageHours: 200, findings: {} }'],
  ['yaml/unknown-word', 'expected', '{ urgency: «urgnt» }', '{ urgency: urgent }'],
  ['yaml/field-missing', 'expected', '«{ classifications: [grunting] }»', '{ urgency: urgent, classifications: [grunting] }'],
];

describe('a reference case', () => {
  it.each(pairs)('that has %s in "%s" is reported there, and is read once it is mended', (code, field, wrong, right) => {
    const { text, range } = marked(fileOf({ [field]: wrong }));
    expect(faultsIn(text)).toMatchObject([{ code, file, severity: 'error', range }]);
    expect(codesOf(faultsIn(fileOf({ [field]: right })))).toEqual([]);
  });

  it('offers the nearest name', () => {
    expect(faultsIn(fileOf({ expected: '{ urgency: urgent, not: [mild-hypotermia] }' }))[0]?.fix).toBe('Write "mild-hypothermia".');
    expect(faultsIn(fileOf({ input: '{ findings: { temperatur: 35.2 } }' }))[0]?.fix).toBe('Did you mean "temperature".');
  });

  it('must not share its id with another', () => {
    const one = '  - { id: a, title: a, rows: [TEMP-04], input: { findings: {} }, expected: { urgency: routine } }\n';
    const twice = faultsIn(`cases:\n${one}${one}`);
    expect(twice).toMatchObject([
      { code: 'floor/case-twice', range: { start: { line: 3 } }, related: [{ range: { start: { line: 2 } } }] },
    ]);
    expect(codesOf(faultsIn(`cases:\n${one}${one.replace('id: a', 'id: b')}`))).toEqual([]);
  });

  it('takes from "baby" what it does not say itself, field by field', () => {
    const text = fileOf({ input: '{ ageHours: null, findings: { temperature: 35.2 } }' });
    const [one] = readReferenceCases([{ name: file, text }], defaultProtocol, () => {});
    expect(one?.input).toMatchObject({ ageHours: null, unlisted: 'normal', findings: { temperature: 35.2 } });
  });

  it('that is at fault is left out, and the others are kept', () => {
    const bad = fileOf({ input: '{ findings: { temperature: 52 } }' });
    const good = bad.replace('52', '35.2').replace('id: cold', 'id: other').split('cases:\n')[1] ?? '';
    expect(readReferenceCases([{ name: file, text: bad + good }], defaultProtocol, () => {}).map(({ id }) => id)).toEqual(['other']);
  });
});
