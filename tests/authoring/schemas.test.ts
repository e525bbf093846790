// The schemas of the files that a coordinator edits: they take every file that ships, and for each kind of file they and its reader
// refuse the same slips. Next: schemas-mutated.test.ts (drawn from a seed), schemas-completions.test.ts.

import { describe, expect, it } from 'vitest';
import { type SchemaName, schemaFor, schemaNamed, schemaNames } from '../../src/authoring/schemas/schema-for.ts';
import { errorsIn, kindOf, refusalOfText, shipped, shippedFile } from './schema-files.ts';

describe('a file that ships', () => {
  it.each(shipped.map(({ name }) => [name]))('%s is taken by its schema and by its reader', (name) => {
    const file = shippedFile(name);
    expect(refusalOfText(kindOf(name), file.text)).toBeNull();
    expect(errorsIn(file)).toEqual([]);
  });

  it('is there for every schema', () => {
    expect(schemaNames.filter((kind) => !shipped.some(({ name }) => kindOf(name) === kind))).toEqual([]);
  });
});

describe('a schema', () => {
  it.each([
    ['flows/any-name.yaml', 'flow'],
    ['flows/protocol/findings.yaml', 'findings'],
    ['flows/protocol/classifications/15-own.yaml', 'classifications'],
    ['flows/reference/must-ask.yaml', 'must-ask'],
    ['flows/reference-cases/own.yaml', 'reference-cases'],
    ['locales/pt-MZ/questions.yaml', 'locale'],
  ] as const)('is found for %s', (file, kind) => {
    expect(schemaFor(file)).toEqual(schemaNamed(kind));
  });

  it.each([
    'flows/protocol/unheard-of.yaml',
    'flows/reference/fhir-codes.yaml',
    'flows/demo/prevalence.yaml',
    'flows/first-day-exam.txt',
    'other/flows/recheck.yaml',
    'locales/en.csv',
    '',
  ])('is not there for "%s"', (file) => {
    expect(schemaFor(file)).toBeNull();
  });

  it.each(schemaNames.map((name) => [name]))('of %s is of the draft 2020-12', (name) => {
    expect(schemaNamed(name)).toMatchObject({ $schema: 'https://json-schema.org/draft/2020-12/schema', type: 'object' });
  });
});

const flow = 'flows/recheck.yaml';
const of = (name: string): string => `flows/protocol/${name}.yaml`;
const cold = of('classifications/20-temperature');
const cases = 'flows/reference-cases/teaching.yaml';
const mustAsk = 'flows/reference/must-ask.yaml';

const places = 'flows/reference/places.yaml';

const slips: readonly (readonly [file: string, from: string, to: string])[] = [
  [places, 'letters: 40', 'letter: 40'],
  [places, '{ place: by, text:', '{ place: by, letters: 3, text:'],
  [places, 'letters: 45', 'letters: many'],
  [flow, 'looks-again: yes', 'look-again: yes'],
  [flow, 'looks-again: yes', 'looks-again: true'],
  [flow, 'flow: recheck\n', ''],
  [flow, 'result: urgent', 'result: now'],
  [flow, 'result: urgent', 'read: temperature\n    result: urgent'],
  [of('rows'), 'proof: [seen]', 'proof: [seen-by-a-friend]'],
  [flow, 'only-if: urgency is urgent', 'only-if: urgency equals urgent'],
  [flow, 'only-if: unknown temperature', 'only-if: unknown temperature or glucose'],
  [flow, 'leaves-open: [feeding]', 'not-known: { feeding: well }'],
  [flow, 'read: [temperature]', 'read: []'],
  [flow, 'mark:', 'mark:\n      - grunting'],
  [of('advice'), 'advice: advice.refer-now', 'advice: Advice.Refer'],
  [of('advice'), 'when: urgency is urgent', 'when: urgency urgent'],
  [of('advice'), 'advice: advice.refer-now, rows', 'advice: advice.refer-now, row'],
  [of('advice'), 'authorised: yes', 'authorised: true'],
  [of('bilirubin'), 'switch: bilirubin-table\n', ''],
  [of('bilirubin'), 'treatment: any-yellow', 'treatment: any-blue'],
  [of('bilirubin'), 'from-hours: 0', 'hours: 0'],
  [of('bilirubin'), 'yellow: any-yellow', 'yellow: { some: [any-yellow] }'],
  [cold, 'recheck: PT1H', 'recheck: 1 hour'],
  [cold, 'rows: [TEMP-08]', 'row: [TEMP-08]'],
  [cold, '- { urgent: temperature-swings }', '- { soon: temperature-swings }'],
  [cold, '- { urgent: temperature-swings }', '- { urgent: temperature-swings, treat: temperature-swings }'],
  [cold, '- { urgent: temperature-swings }', '- { urgent: temperature-swings, recheck: PT1H }'],
  [cold, '- { urgent: temperature-swings }', '- { urgent: [] }'],
  [of('classifications/99-routine'), 'within: PT12H', 'recheck: PT12H'],
  [of('conditions'), 'age >= 6 h', 'age => 6 h'],
  [of('conditions'), 'any-yellow: yellow-reach is not none', 'any-yellow: {}'],
  [of('conditions'), 'any-yellow: yellow-reach is not none', 'any-yellow: { any: }'],
  [of('conditions'), 'conditions:', 'condition:'],
  [of('contacts'), 'to-hours: 48, ', ''],
  [of('contacts'), 'from-hours: 24', 'from-hours: a day'],
  [of('contacts'), 'again-after: yes', 'again-after: often'],
  [of('contacts'), 'when: small-baby', 'when: small baby'],
  [of('contradictions'), '    mend: give 0 or leave it out, or correct feeding\n', ''],
  [of('contradictions'), '- at: feeds-per-day', '- of: feeds-per-day'],
  [of('contradictions'), 'feeds-per-day > 0', 'feeds-per-day more than 0'],
  [of('doses'), 'amount: 133, ', ''],
  [of('doses'), 'needs-weight: yes', 'needs-weight: always'],
  [of('doses'), 'ceiling: { amount: 24, per-kg: 7.5 }', 'ceiling: { amount: 24 }'],
  [of('doses'), 'dose-weight >= 1500 g', 'dose-weight >= 1500 g of today'],
  [of('doses'), '40-mg-per-ml: 40', '40-mg-per-ml: forty'],
  [of('feeds'), 'ml-per-feed: [12,', 'ml-per-feed: [some,'],
  [of('feeds'), 'feeds-per-day: 8, ', ''],
  [of('feeds'), 'tables:', 'table:'],
  [of('fields'), 'range: 0 to 1439', 'range: 0-1439'],
  [of('fields'), '  day-of-week: 3', '  week-day: 3'],
  [of('fields'), 'from: 28, ', ''],
  [of('findings'), 'kind: sign', 'kind: sing'],
  [of('findings'), 'at: first-day', 'at: day-one'],
  [of('findings'), 'range: 0 to 720', 'range: up to 720'],
  [of('findings'), '    range: 0 to 720\n', ''],
  [of('findings'), '    group: history\n', ''],
  [of('findings'), 'over: 18, rows', 'above: 18, rows'],
  [of('findings'), 'over: 18, rows', 'rows'],
  [of('findings'), 'danger: yes', 'danger: high'],
  [of('findings'), 'decimals: 1', 'decimals: one'],
  [of('follow-up'), 'taken-within: PT5M', 'taken-within: 5 minutes'],
  [of('follow-up'), 'asks: [worker]', 'asks: [mother]'],
  [of('follow-up'), 'asks: [worker]', 'asks: []'],
  [of('follow-up'), 'from: "21:00"', 'from: 9 pm'],
  [of('follow-up'), '  travel: PT2H\n', ''],
  [of('limits'), 'over: 37.5', 'over: 37.5°'],
  [of('limits'), 'over: 37.5', 'above: 37.5'],
  [of('limits'), 'cold-grades: no-mild-band, from: 36.5', 'from: 36.5'],
  [of('limits'), 'cold-grades: no-mild-band, from: 36.5', 'cold-grades: no-mild-band'],
  [of('limits'), 'cold-grades: no-mild-band, from: 36.5', 'cold-grades: no-mild-band, from: 36.5, over: 36.5'],
  [of('needs'), 'finding: heart-rate', 'findings: heart-rate'],
  [of('needs'), '{ none: [heart-rate has 2 readings] }', '{ non: [heart-rate has 2 readings] }'],
  [of('needs'), 'heart-rate has 2 readings', 'heart-rate has two readings'],
  [of('rows'), 'proof: [], source: "convention of this project"', 'proof: []'],
  [of('rows'), 'proof: []', 'proofs: []'],
  [of('rows'), 'proof: [seen]', 'proof: [{ seen: yes }]'],
  [of('rows-without-rule'), '  - why:', '  - because:'],
  [of('rows-without-rule'), '    rows: [CONV-03]\n', ''],
  [of('sign-off'), 'proof: [from-memory, project]', 'proof: [seen]'],
  [of('sign-off'), '  - item: SIGN-01\n    decide:', '  - decide:'],
  [of('sign-off'), 'tables: [rec12]', 'tables: { rec12: yes }'],
  [of('sources'), 'MNP03: "', 'MNP03:\n  MNP04: "'],
  [of('sources'), 'sources:', 'source:'],
  [of('switches'), '    row: C-01\n', ''],
  [of('switches'), 'options: [from-60, over-60]', 'options: [from-60, over-60]\n    choice: over-60'],
  [of('switches'), 'options: [from-60, over-60]', 'options: { from-60: yes }'],
  [of('switches'), '  - switch: fever-line', '  - name: fever-line'],
  [mustAsk, '  - born\n', '  - [born]\n'],
  [mustAsk, '  - gestation\n', '  - gestation: { weeks: yes }\n'],
  [cases, 'urgency: routine', 'urgency: calm'],
  [cases, 'unlisted: normal', 'unlisted: fine'],
  [cases, 'ageHours: 24', 'ageHours: "24"'],
  [cases, 'ageHours: 24', 'age: 24'],
  [cases, '    title: Weight down 5 percent on day 4\n', ''],
  [cases, 'classifications: [well-baby]', 'classifications: { well-baby: calm }'],
  ['locales/sw/language.yaml', 'alphabet: gsm-7', 'alphabet: gsm'],
  ['locales/sw/language.yaml', 'draft: ', 'draft: maybe #'],
  ['locales/sw/language.yaml', '  tag: sw\n', ''],
  ['locales/sw/language.yaml', 'tag: sw', 'tag: sw_TZ'],
  ['locales/sw/language.yaml', 'keywords:', 'key-words:'],
  ['locales/en/language.yaml', 'more: [', 'more: ["7", '],
  ['locales/en/language.yaml', '  ago: [', '  ago: { word: ago }\n  agone: ['],
  ['locales/hi/language.yaml', '०१२३४५६७८९', '०१२३४५६७८'],
  ['locales/sw/questions.yaml', 'messages:', 'message:'],
  ['locales/sw/questions.yaml', 'title: "", place', 'title: [], place'],
];

function edited(name: string, from: string, to: string): string {
  const { text } = shippedFile(name);
  if (!text.includes(from)) throw new Error(`${name} does not hold "${from}"`);
  return text.replace(from, to);
}

describe('a slip', () => {
  it.each(slips)('in %s: "%s" written as "%s" is refused by the schema and by the reader', (name, from, to) => {
    const text = edited(name, from, to);
    expect(refusalOfText(kindOf(name), text)).not.toBeNull();
    expect(errorsIn({ name, text })).not.toEqual([]);
  });

  it('is in the table for every kind of file', () => {
    const kinds = new Set(slips.map(([name]) => kindOf(name)));
    expect(schemaNames.filter((name) => !kinds.has(name))).toEqual([]);
  });
});

describe('another way to write the same', () => {
  it.each([
    [flow, 'read: [temperature]', 'read: temperature'],
    [flow, 'only-if: unknown temperature', 'only-if: "  unknown temperature "'],
    [of('advice'), 'rows: [PREREF-11]', 'rows: PREREF-11'],
    [of('bilirubin'), 'exchange: 260', 'exchange: "260"'],
    [of('conditions'), 'age >= 6 h', '"age  >=   6 h"'],
    [of('contacts'), "contact: '2'", 'contact: 2'],
    [of('findings'), 'unlisted: not-done', 'unlisted: yes'],
    [of('follow-up'), 'asks: [worker]', 'asks: worker'],
    [of('limits'), 'never: yes', 'never: true'],
    [flow, 'only-if: urgency is urgent', 'only-if: [urgency is urgent]'],
    [mustAsk, '  - born\n', '  - born: at-night\n'],
    [cases, 'classifications: [well-baby]', 'classifications: well-baby'],
    ['locales/en/language.yaml', 'draft: false', 'draft: no'],
  ] as const)('in %s: "%s" as "%s" is taken by the schema and by the reader', (name, from, to) => {
    const text = edited(name, from, to);
    expect(refusalOfText(kindOf(name), text)).toBeNull();
    expect(errorsIn({ name, text })).toEqual([]);
  });
});

describe('one line of a condition', () => {
  const verdicts = (leaf: string) => {
    const text = `conditions:\n  danger-sign: grunting\n  tried: ${JSON.stringify(leaf)}\n`;
    const kind: SchemaName = 'conditions';
    return { schema: refusalOfText(kind, text) === null, reader: errorsIn({ name: of('conditions'), text }).length === 0 };
  };

  it.each([
    'grunting',
    'not not grunting',
    'danger-sign besides temperature or warmth-by-touch',
    'feeding is less-than-before or not-at-all',
    'convulsion is not none',
    'sex is known',
    'grunting is absent',
    'age < 168 h',
    'age >= 7 days',
    'weight-change < -10 %',
    'bilirubin >= bilirubin-treatment-line',
    'age past prolonged-jaundice',
    'lowest reading of respiratory-rate is slow or very-slow',
    'highest reading of temperature > 39.0',
    '2 readings of glucose are low',
    '1 reading of temperature is not normal',
    'readings of temperature fall',
    'temperature has no reading',
    'respiratory-rate has 2 readings',
    'severe-jaundice is not given',
    'family back is given',
    'jitteriness was given 0.5 h ago',
    'not jitteriness was given 2 h ago',
    'switch cord-pus is urgent',
  ])('"%s" is taken by both', (leaf) => {
    expect(verdicts(leaf)).toEqual({ schema: true, reader: true });
  });

  it.each([
    'grunting and jittery',
    'grunting, jittery',
    'jitteriness was given ago',
    'jitteriness was given 2 h',
    'temperature = 38.0',
    'temperature is',
    'temperature is low or',
    'age <168 h',
    'age < 168 hours of life',
    'age below early jaundice',
    'two readings of glucose are low',
    '2 readings of glucose low',
    'middle reading of heart-rate is slow',
    'readings of temperature',
    'temperature has readings',
    'family back given',
    'switch cord-pus urgent',
    'danger-sign besides',
    '',
  ])('"%s" is refused by both', (leaf) => {
    expect(verdicts(leaf)).toEqual({ schema: false, reader: false });
  });
});
