// The shape of flows/reference/places.yaml: what stands in the places of messages at its longest. The reader: read-places.ts.

import { z } from 'zod';
import { number, oneOrMore, text } from './shapes.ts';

const place = {
  place: text.describe('The name in braces, such as code for {code}.'),
  under: oneOrMore(text).describe('The beginnings of the names of messages that the line is for; all when left out.').optional(),
};

const line = z.union([
  z.strictObject({ ...place, text: text.describe('These very characters, such as the longest number.') }),
  z.strictObject({ ...place, letters: number.describe("So many letters of the language's own alphabet.") }),
  z.strictObject({ ...place, message: oneOrMore(text).describe('The longest message under these names.') }),
  z.strictObject({ ...place, fitted: text.describe('It is cut to the room that is left when it is said, and this is why.') }),
]);

export const placesSchema = z.strictObject({
  places: oneOrMore(line).describe('The first line that fits a place holds.').optional(),
});
