// The schema of conditions: lists under any, all, none and two-of, and leaves of one line of plain words. What a leaf may say is
// spelt out form by form; which names there are is left to the reader (read-leaf.ts, read-condition.ts).

import { z } from 'zod';
import { oneOrMore, written } from './shapes.ts';

/** Every form of a leaf: words that stand for themselves, and parts in capitals. OPTIONS are also given, known and absent. */
const leafForms = [
  'NAME',
  'NAME besides NAMES',
  'NAME is OPTIONS',
  'NAME COMPARED',
  'NAME below|past NAME',
  'NAME has a|no|WHOLE reading|readings',
  'switch NAME is OPTIONS',
  'family NAME is given',
  'NAME was given AMOUNT WORD ago',
  'readings of NAME fall',
  'WHOLE reading|readings of NAME is|are OPTIONS',
  'ORDINAL reading of NAME is OPTIONS',
  'ORDINAL reading of NAME COMPARED',
] as const;

const parts: Readonly<Record<string, string>> = {
  NAME: '\\S+',
  NAMES: '\\S+(\\s+or\\s+\\S+)*',
  OPTIONS: '(not\\s+)?\\S+(\\s+or\\s+\\S+)*',
  COMPARED: '[<>]=?\\s+(-?\\d+(\\.\\d+)?\\s+)?\\S+',
  WHOLE: '\\d+',
  AMOUNT: '\\d+(\\.\\d+)?',
  WORD: '\\S+',
  ORDINAL: '(first|second|third|last|lowest|highest)',
};

function patternOf(form: string): string {
  const words = form.split(' ').map((word) => {
    const choices = word.split('|').map((one) => parts[one] ?? one);
    return choices.length === 1 ? choices[0] : `(${choices.join('|')})`;
  });
  return words.join('\\s+');
}

/** One for each form, each whole, so that none can make another slow. */
export const leafPatterns: readonly string[] = leafForms.map((form) => `^\\s*(not\\s+)*${patternOf(form)}\\s*$`);

export const leaf = written(
  new RegExp(leafPatterns.join('|')),
  'This is no test. Write it like "grunting", "temperature is low or severely-low", "age < 168 h" or "2 readings of glucose are low".',
).meta({
  id: 'leaf',
  description: [
    'One test in plain words, with "not" before it where it must not hold:',
    'grunting: a sign that was seen, or a condition of conditions.yaml ("illness-sign besides temperature": as if nothing were known of temperature)',
    'feeding is not-at-all or less-than-before; convulsion is not none: options',
    'temperature is low: a band; of several readings, those that stand',
    'sex is known; grunting is absent; temperature has a reading (no reading, 2 readings)',
    'age < 168 h; bilirubin >= bilirubin-treatment-line: a number with its unit, or another finding',
    'age below early-jaundice; age past prolonged-jaundice: a line of limits.yaml',
    '2 readings of glucose are low; last reading of heart-rate is slow; highest reading of temperature > 39.0; readings of temperature fall',
    'severe-jaundice is given; family back is given: classifications',
    'jitteriness was given 0.5 h ago: by an earlier look, at least so long ago, and what it rested on was looked at again',
    'switch cord-pus is urgent: what the programme chose',
  ].join('\n'),
  examples: ['grunting', 'temperature is low', 'age < 168 h'],
});

const whole = 'What must hold: a test in plain words, a list of which all must hold, or lists under any, all, none and two-of.';

const list = (): z.ZodType => oneOrMore(condition, 1);

/** Several lists beside each other must all hold. */
export const conditionLists = z
  .strictObject({
    get any() {
      return list().describe('At least one of these holds.').optional();
    },
    get all() {
      return list().describe('All of these hold.').optional();
    },
    get none() {
      return list().describe('None of these holds.').optional();
    },
    get 'two-of'() {
      return list().describe('At least two of these hold.').optional();
    },
  })
  .meta({ id: 'condition-lists', description: whole, minProperties: 1 });

export const condition: z.ZodType = z
  .union([leaf, conditionLists, z.array(z.lazy(() => condition)).min(1)])
  .meta({ id: 'condition', description: whole });
