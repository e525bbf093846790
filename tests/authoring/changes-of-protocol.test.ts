// Edits of the shipped protocol, its reference cases and what must be asked, and what is said of each beside what it does to babies.
// Next: changes.test.ts.

import { expect, it } from 'vitest';
import { type Edit, saidOf } from './changed-files.ts';

const protocol = 'flows/protocol';
const chart = `${protocol}/classifications`;

const judged: readonly (readonly [what: string, edits: readonly Edit[], says: readonly string[]])[] = [
  ['a limit', [[`${protocol}/limits.yaml`, 'from: 38.0', 'from: 38.5']], ['limit-moved | high-temperature | from 38.0 | from 38.5']],
  [
    'where a switch puts a limit',
    [[`${protocol}/limits.yaml`, 'under-35.0, from: 35.0', 'under-35.0, over: 35.0']],
    ['limit-option-moved | low-temperature | low-temperature-line: under-35.0 | from 35.0 | over 35.0'],
  ],
  [
    'the line of a band',
    [[`${protocol}/findings.yaml`, 'id: long, over: 18', 'id: long, over: 24']],
    ['band-moved | waters-broken-hours | long | over 18 | over 24'],
  ],
  [
    'the plausible range of a value',
    [[`${protocol}/findings.yaml`, 'range: 0 to 720', 'range: 0 to 700']],
    ['setting-changed | waters-broken-hours | range | 0 to 720 | 0 to 700'],
  ],
  [
    'the default of a switch',
    [[`${protocol}/switches.yaml`, '[local, urgent]', '[urgent, local]']],
    ['switch-default-changed | cord-pus | local | urgent'],
  ],
  [
    'the choice of a switch',
    [[`${protocol}/switches.yaml`, '[local, urgent]', '[local, urgent]\n    chosen: urgent']],
    ['switch-default-changed | cord-pus | local | urgent'],
  ],
  [
    'a named condition',
    [[`${protocol}/conditions.yaml`, 'age >= 6 h', 'age >= 8 h']],
    [
      'condition-changed | not-feeding | any: [feeding-less-or-not-at-all, [feeding is not-yet, age >= 6 h]] | any: [feeding-less-or-not-at-all, [feeding is not-yet, age >= 8 h]]',
    ],
  ],
  [
    'a rule taken out',
    [[`${chart}/10-infection.yaml`, '      - { urgent: feeding is not-at-all, rows: [PSBI-01] }\n', '']],
    ['rule-removed | possible-serious-bacterial-infection | urgent: feeding is not-at-all'],
  ],
  [
    'a rule added',
    [
      [
        `${chart}/10-infection.yaml`,
        '      - { treat: cord-smelly-or-wet',
        '      - { refer: looks-ill, rows: [CORD-05] }\n      - { treat: cord-smelly-or-wet',
      ],
    ],
    ['rule-added | local-bacterial-infection | refer: looks-ill'],
  ],
  [
    'a rule made less urgent',
    [[`${chart}/30-breathing-and-heart.yaml`, '{ urgent: grunting', '{ refer: grunting']],
    ['rule-less-urgent | grunting | grunting | urgent | refer'],
  ],
  [
    'a rule made more urgent',
    [[`${chart}/60-nerves-and-glucose.yaml`, '{ treat: looks-ill, recheck: PT2H }', '{ urgent: looks-ill }']],
    [
      'rule-time-changed | unwell-baby | urgent: looks-ill | recheck PT2H | -',
      'rule-more-urgent | unwell-baby | looks-ill | treat | urgent',
    ],
  ],
  [
    'a rule that asks for something else',
    [[`${chart}/30-breathing-and-heart.yaml`, '{ urgent: grunting', '{ urgent: jittery']],
    ['rule-changed | grunting | urgent: grunting | urgent: jittery'],
  ],
  [
    'the time of the next look',
    [[`${chart}/50-jaundice-and-colour.yaml`, 'any-yellow, recheck: P1D', 'any-yellow, recheck: P3D']],
    ['rule-time-changed | jaundice | treat: any-yellow | recheck P1D | recheck P3D'],
  ],
  [
    'what only bars a classification',
    [[`${chart}/10-infection.yaml`, 'unless: critical-sign', 'unless: danger-sign']],
    ['setting-changed | clinical-severe-infection | unless | critical-sign | danger-sign'],
  ],
  [
    'advice',
    [
      [
        `${chart}/10-infection.yaml`,
        'advice: [advice.first-dose-antibiotic, advice.skin-to-skin-on-the-way',
        'advice: [advice.keep-warm, advice.skin-to-skin-on-the-way',
      ],
    ],
    [
      'advice-removed | possible-serious-bacterial-infection | first-dose-antibiotic',
      'advice-added | possible-serious-bacterial-infection | keep-warm',
    ],
  ],
  [
    'the order to act',
    [
      [
        `${protocol}/advice.yaml`,
        /( {2}- \{ advice: advice\.help-baby-breathe[^\n]*\n)( {2}- \{ advice: advice\.open-airway[^\n]*\n)/,
        '$2$1',
      ],
    ],
    ['order-changed | advice.help-baby-breathe'],
  ],
  [
    'a dose',
    [[`${protocol}/doses.yaml`, 'amount: 8, row: ABX-05', 'amount: 9, row: ABX-05']],
    [
      'dose-changed | gentamicin | amount 9, [switch gentamicin-table is bands-imci19, dose-weight >= 1500 g, dose-weight < 2500 g] | amount: 8 | amount: 9',
    ],
  ],
  [
    'doses in another order, of which the first that holds is given',
    [[`${protocol}/doses.yaml`, /( {6}- [^\n]*ABX-05[^\n]*\n)( {6}- [^\n]*ABX-06[^\n]*\n)/, '$2$1']],
    ['order-changed | gentamicin'],
  ],
  [
    'switches in another order, of which the first that is set moves a limit',
    [[`${protocol}/limits.yaml`, /( {6}- \{ cold-grades[^\n]*\n)( {6}- \{ low-temperature-line[^\n]*\n)/, '$2$1']],
    ['order-changed | low-temperature'],
  ],
  [
    'a contact',
    [[`${protocol}/contacts.yaml`, "'2', from-hours: 48", "'2', from-hours: 36"]],
    ['contact-changed | four-contacts | 2 | from-hours: 48 | from-hours: 36'],
  ],
  ['a contact taken out', [[`${protocol}/contacts.yaml`, / {6}- \{ contact: day-3[^\n]*\n/, '']], ['contact-removed | days-1-3-7 | day-3']],
  [
    'a rung of the follow-up',
    [[`${protocol}/follow-up.yaml`, 'taken-within: PT5M', 'taken-within: PT9M']],
    ['setting-changed | taken-within | taken-within | PT5M | PT9M'],
  ],
  ['what must be asked', [['flows/reference/must-ask.yaml', '  - blue-tongue\n', '']], ['entry-removed | blue-tongue']],
  [
    'a reference case',
    [['flows/reference-cases/temperature.yaml', 'temperature: 35.7 }', 'temperature: 35.8 }']],
    ['setting-changed | moderate-hypothermia | input.findings.temperature | 35.7 | 35.8'],
  ],
];

it.each(judged)('tells %s', (_, edits, says) => {
  expect(saidOf(edits).filter((one) => !one.startsWith('babies-'))).toEqual(says);
});
