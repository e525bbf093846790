// The schemas of limits.yaml and switches.yaml: lines, and the choices of the programme that move them. Read by read-limits.ts.

import { z } from 'zod';
import { choice, option, row } from './names.ts';
import { exactlyOneOf, number, oneOrMore, suggested, text } from './shapes.ts';

export const from = number.describe('The line. This value itself lies beyond it.');
export const over = number.describe('The line. This value itself does not lie beyond it yet.');
const line = {
  from: from.optional(),
  over: over.optional(),
  never: suggested('yes').describe('Nothing lies beyond the line.').optional(),
};
const oneLine = exactlyOneOf('from', 'over', 'never');

/** A switch and its option beside the line that then holds. */
const move = z.intersection(z.object(line).catchall(option), z.record(choice, z.unknown())).meta({
  ...oneLine,
  minProperties: 2,
  description: 'A switch and its option, such as "fever-line: from-37.5", and the line that then holds.',
});

export const limitsSchema = z.strictObject({
  limits: z
    .record(
      z.string(),
      z
        .strictObject({
          ...line,
          moved: oneOrMore(move).describe('The first switch in the list that is set this way moves the line.').optional(),
        })
        .meta({ ...oneLine, description: 'One line: from, over or never, and what moves it.' }),
    )
    .describe('Lines that a switch can move, by name.')
    .optional(),
});

const switches = z.strictObject({
  switch: text.describe('The name of the switch.'),
  options: oneOrMore(option).describe("What can be chosen. The first is the guideline's own, and holds when nothing is chosen."),
  chosen: option.describe('The option that the programme has chosen.').optional(),
  row: row.describe('The entry of the conflict register that it settles.'),
  changes: z.unknown().describe('What the other options do, in a sentence.').optional(),
});

export const switchesSchema = z.strictObject({
  switches: oneOrMore(switches).describe('What guidelines answer differently, and the programme chooses.').optional(),
});
