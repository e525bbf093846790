// Edits of a shipped flow and of the wording, and what is said of each. No reference case comes out otherwise: they begin with what was
// found. Next: changes-of-protocol.test.ts.

import { expect, it } from 'vitest';
import { type Edit, saidOf } from './changed-files.ts';

const flow = 'flows/first-day-exam.yaml';
const refill = '  - step: refill\n    read: [capillary-refill]\n\n';

const asked: readonly (readonly [what: string, edits: readonly Edit[], says: readonly string[]])[] = [
  [
    'a value asked sooner',
    [[flow, '[temperature, respiratory-rate, heart-rate]', '[heart-rate, temperature, respiratory-rate]']],
    ['field-moved-before | first-day-exam | vitals | heart-rate | temperature'],
  ],
  [
    'a value asked last',
    [[flow, '[temperature, respiratory-rate, heart-rate]', '[respiratory-rate, heart-rate, temperature]']],
    ['field-moved-after | first-day-exam | vitals | temperature | heart-rate'],
  ],
  [
    'a value taken out',
    [[flow, 'respiratory-rate, heart-rate]', 'respiratory-rate]']],
    ['field-removed | first-day-exam | vitals | heart-rate'],
  ],
  [
    'a value asked in another step',
    [
      [flow, 'respiratory-rate, heart-rate]', 'respiratory-rate]'],
      [flow, '[capillary-refill]', '[capillary-refill, heart-rate]'],
    ],
    ['field-moved | first-day-exam | heart-rate | vitals | refill', 'asked-again | first-day-exam | breathing-colour'],
  ],
  [
    'a value that may be left out',
    [[flow, 'birth-weight, card?', 'birth-weight?, card?']],
    ['field-now-optional | first-day-exam | who | birth-weight'],
  ],
  ['a value that may not be left out', [[flow, 'card?', 'card']], ['field-now-needed | first-day-exam | who | card']],
  [
    'a step moved up',
    [
      [flow, refill, ''],
      [flow, '  - step: heat\n', `${refill}  - step: heat\n`],
    ],
    ['step-moved-before | first-day-exam | refill | heat'],
  ],
  [
    'a step taken out with the mark that opened it',
    [
      [flow, refill, ''],
      [flow, '      - then: refill\n', ''],
    ],
    [
      'step-removed | first-day-exam | refill',
      'mark-removed | first-day-exam | breathing-colour-more | then:refill',
      'asked-again | first-day-exam | breathing-colour',
    ],
  ],
  [
    'a step added',
    [[flow, '  - step: heat\n', '  - step: cry\n    mark: [restless]\n\n  - step: heat\n']],
    ['step-added | first-day-exam | cry'],
  ],
  [
    'a sign taken out',
    [[flow, '      - startles\n', '']],
    ['mark-removed | first-day-exam | moves-more | startles', 'asked-again | first-day-exam | moves'],
  ],
  [
    'a sign added',
    [[flow, '    mark: [heat-exposure]', '    mark: [heat-exposure, sweat-rash]']],
    ['asked-again | first-day-exam | heat', 'mark-added | first-day-exam | heat | sweat-rash'],
  ],
  [
    'a sign put behind digit 9',
    [
      [flow, '      - jittery\n', ''],
      [flow, '      - convulsion: subtle', '      - jittery\n      - convulsion: subtle'],
    ],
    ['mark-moved | first-day-exam | jittery | moves | moves-more', 'asked-again | first-day-exam | moves'],
  ],
  [
    'signs in another order',
    [[flow, '[foul-liquor, green-liquor', '[green-liquor, foul-liquor']],
    ['marks-reordered | first-day-exam | liquor'],
  ],
  [
    'a mark that leaves another value',
    [[flow, 'bag-and-mask-minutes: 0', 'bag-and-mask-minutes: 1']],
    ['mark-changed | first-day-exam | birth | then:bag-and-mask', 'asked-again | first-day-exam | birth'],
  ],
  [
    'a guard changed',
    [[flow, 'any: [jittery, mother-diabetic]', 'all: [jittery, mother-diabetic]']],
    ['guard-changed | first-day-exam | sugar | any: [jittery, mother-diabetic] | all: [jittery, mother-diabetic]'],
  ],
  [
    'a guard taken out',
    [[flow, '    only-if: unknown temperature\n', '']],
    ['guard-removed | first-day-exam | touch | unknown temperature'],
  ],
  [
    'a guard added',
    [[flow, '  - step: vitals\n', '  - step: vitals\n    only-if: sex is girl\n']],
    ['guard-added | first-day-exam | vitals | sex is girl'],
  ],
  [
    'a step of another kind',
    [[flow, 'read: [waters-broken-hours]\n    not-known: { waters-broken-long-hours-not-known: true }', 'mark: [foul-liquor]']],
    [
      'step-kind-changed | first-day-exam | waters | read | mark',
      'mark-added | first-day-exam | waters | foul-liquor',
      'field-removed | first-day-exam | waters | waters-broken-hours',
      'asked-again | first-day-exam | pregnancy',
      'setting-removed | waters | not-known | { waters-broken-long-hours-not-known: true }',
    ],
  ],
  [
    'what is recorded when a value cannot be had',
    [[flow, 'waters-broken-long-hours-not-known: true', 'waters-broken-long-hours-not-known: false']],
    ['setting-changed | waters | not-known.waters-broken-long-hours-not-known | true | false'],
  ],
  [
    'a question that an example of the language words',
    [['locales/en/signs.yaml', 'foul waters', 'bad waters']],
    ['wording-changed | en | 1 | signs.foul-liquor'],
  ],
  [
    'a keyword',
    [['locales/en/language.yaml', 'new-baby: [BABY, NEW]', 'new-baby: [BABY, NEWBORN]']],
    ['keyword-removed | en | new-baby | NEW', 'keyword-added | en | new-baby | NEWBORN'],
  ],
  [
    'a word in an answer',
    [['locales/en/language.yaml', 'weeks: [w, wk, wks', 'weeks: [w, wk, wks, wkz']],
    ['word-added | en | weeks | wkz'],
  ],
  [
    'a draft that was reviewed',
    [['locales/sw/language.yaml', 'draft: yes', 'draft: no']],
    ['language-setting-changed | sw | draft | true | false'],
  ],
];

it.each(asked)('tells %s', (_, edits, says) => {
  expect([...saidOf(edits)].sort()).toEqual([...says].sort());
});
