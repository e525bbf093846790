// Names that one file gives and others use. A schema does not know which there are, for a draft may add one; it says of what kind a
// name is, and completions.ts tells an editor that knows the protocol which names to offer. Next: vocabulary.ts.

import { z } from 'zod';
import { written } from './shapes.ts';

const word = written(/\S/, 'Write its name.');

/** A name that may look like a number. */
function nameOf(kind: string, description: string) {
  return z.union([word, z.number()]).meta({ id: kind, description });
}

/** A name that also stands before a colon, where a key is a text. */
function keyOf(kind: string, description: string) {
  return word.meta({ id: kind, description });
}

export const finding = keyOf('finding', 'A finding of findings.yaml, or a field of the baby such as sex or birth-weight.');
export const option = nameOf('option', 'An option of the finding or of the switch.');
export const band = keyOf('band', 'A band of this finding.');
export const limit = nameOf('limit', 'A line of limits.yaml.');
export const choice = keyOf('switch', 'A switch of switches.yaml.');
export const row = nameOf('row', 'A row of the clinical reference: rows.yaml, or the "row" of a switch.');
export const classification = keyOf('classification', 'A classification of the files under classifications/.');
export const advice = nameOf('advice', 'An advice of advice.yaml, such as advice.keep-warm.');
export const step = nameOf('step', 'A step of this flow.');
export const flow = keyOf('flow', 'A flow: the name behind "flow:" in its file.');
