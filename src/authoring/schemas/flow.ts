// The schema of a flow: its steps, what each asks, and when. Read by read-flow.ts; its steps by read-flow-step.ts.

import { z } from 'zod';
import { conditionLists, leaf } from './condition.ts';
import { finding, option, step } from './names.ts';
import { oneOrMore, text, written, yesOrNo } from './shapes.ts';

const guard = z.union([leaf, written(/^\s*unknown \S+\s*$/, 'Write "unknown" and one finding.'), conditionLists, z.array(leaf).min(1)]);

const every = {
  step: text.describe('The name of the step. Its words stand under ask.<step> in the locales.'),
  'only-if': guard
    .describe('The step is asked only while this holds. Besides all that the protocol knows: urgency, worker, and "unknown temperature".')
    .optional(),
};

const twins = z.enum(['share']).describe('share: the answer holds for the next twin too.').optional();
const value = z.union([z.boolean(), option]);
const values = z.record(finding, value);
const notKnown = values
  .describe('What is recorded when the worker sends - because it cannot be had: findings and their values. Give the safer reading.')
  .optional();

const markOfValue = z
  .object({
    mark: finding.describe('A sign that is seen or not seen, where "then" or "otherwise" goes with it.').optional(),
    // biome-ignore lint/suspicious/noThenProperty: a word of flow files.
    then: step.describe('The step that this mark opens. It is asked only when it was opened.').optional(),
    otherwise: values.describe('Findings and the values that hold when this mark is not made.').optional(),
  })
  .catchall(value);

const mark = z.union([
  finding.describe('A sign that is seen or not seen.'),
  z
    .intersection(markOfValue, z.record(finding, z.unknown()))
    .describe('A finding and the option that this mark stands for, such as "chest-indrawing: severe"; then, otherwise.'),
]);

const mostMarks = 9;
const marks = (most: number) => oneOrMore(mark, 1, most);
const ofMarks = {
  'leaves-open': oneOrMore(finding).describe('Findings that a mark here can set but that have a question of their own later.').optional(),
  furthest: oneOrMore(finding).describe('Findings of which several marks may be made at once; the one listed last holds.').optional(),
  regions: oneOrMore(z.string())
    .describe('Regions that are asked here in one, by the names they have among the words of a quick report, which must name each.')
    .optional(),
  twins,
};

const read = z.strictObject({
  ...every,
  read: oneOrMore(finding, 1).describe('Values asked in one message, in this order or by label. A ? after a name: it may be left out.'),
  options: z.record(finding, oneOrMore(option)).describe('Which options of a finding are offered, in this order.').optional(),
  'not-known': notKnown,
  twins,
});
const markStep = z.strictObject({
  ...every,
  mark: marks(mostMarks).describe(
    'Signs of one body region, answered 0 for none or with the digits of what is seen. Dangers first, nine at most.',
  ),
  ...ofMarks,
});
const markMoreStep = z.strictObject({
  ...every,
  mark: marks(mostMarks - 1).describe('Signs of one body region, dangers first. With "more" eight at most, for digit 9 opens the rest.'),
  more: marks(mostMarks).describe('Signs behind digit 9: rarer ones and normal variants, nine at most. No danger sign may stand here.'),
  ...ofMarks,
});
const again = z.strictObject({
  ...every,
  again: finding.describe('One more reading of this finding, asked while the protocol still needs it.'),
  'not-known': notKnown,
});
const result = z.strictObject({
  ...every,
  result: z
    .union([
      z.literal('urgent').describe('Said as soon as the baby is in danger.'),
      z.literal('final').describe('The end of the flow. The last step gives it.'),
    ])
    .describe('What was found and what to do.'),
  // biome-ignore lint/suspicious/noThenProperty: a word of flow files.
  then: step.describe('The step that the worker may open from here.').optional(),
});

export const flowSchema = z.strictObject({
  flow: text.describe('The name of the flow.'),
  'looks-again': yesOrNo.describe('yes: it adds to an examination in which every danger sign was asked.').optional(),
  steps: oneOrMore(z.union([read, markStep, markMoreStep, again, result])).describe(
    'The questions. The worker is asked the first step that is not answered yet and whose only-if holds; there are no jumps.',
  ),
});
