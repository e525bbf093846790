// What is offered while typing: what the schema of the file allows at the cursor, and the names that the draft gives to things.
// Next: place.ts, where the cursor stands; src/authoring/schemas/completions.ts, what may stand there.

import type { Completion, CompletionSource } from '@codemirror/autocomplete';
import { completionsFor } from '../../../authoring/schemas/completions.ts';
import type { FileSchema } from '../../flows/answers.ts';
import { placeAt } from './place.ts';

/** A condition speaks of findings. */
const offered: Readonly<Record<string, string>> = { leaf: 'finding' };

export function completionSource({ schema, names }: FileSchema): CompletionSource {
  return ({ state, pos, explicit }) => {
    const place = schema === null ? null : placeAt(state.doc.toString(), pos);
    if (schema === null || place === null || (place.from === pos && !explicit)) return null;
    const { keys, values, keyNames, valueNames } = completionsFor(schema, place.path);
    const named = (kinds: readonly string[]): string[] => kinds.flatMap((kind) => names[offered[kind] ?? kind] ?? []);
    const colon = place.hasColon ? '' : ': ';
    const asKeys = [...keys, ...named(keyNames).map((text) => ({ text, says: '' }))]
      .filter(({ text }) => !place.others.includes(text))
      .map(({ text, says }): Completion => ({ label: text, apply: `${text}${colon}`, info: says, type: 'property', boost: 1 }));
    const asValues = [...values, ...named(valueNames).map((text) => ({ text, says: '' }))].map(
      ({ text, says }): Completion => ({ label: text, info: says, type: 'constant' }),
    );
    const options = [...(place.takes === 'value' ? [] : asKeys), ...(place.takes === 'key' ? [] : asValues)];
    return { from: place.from, options, validFor: /^[\w.-]*$/ };
  };
}
