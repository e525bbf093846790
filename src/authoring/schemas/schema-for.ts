// Which kind of file has which schema, and the schemas as JSON Schema (draft 2020-12), so that any editor completes and checks
// what a coordinator writes. A schema is never stricter than the reader of the file, but for a text that YAML takes for true or null,
// and bands that are no map; and it sees no other file: whether a name is known is for the reader. Next: completions.ts.

import { z } from 'zod';
import { adviceSchema, rowsSchema, sourcesSchema } from './advice.ts';
import { bilirubinSchema } from './bilirubin.ts';
import { classificationsSchema, conditionsSchema, contradictionsSchema, needsSchema } from './classifications.ts';
import { contactsSchema, dosesSchema, feedsSchema } from './doses.ts';
import { fieldsSchema, findingsSchema } from './findings.ts';
import { flowSchema } from './flow.ts';
import { followUpSchema } from './follow-up.ts';
import { limitsSchema, switchesSchema } from './limits.ts';
import { localeSchema } from './locale.ts';
import { placesSchema } from './places.ts';
import { mustAskSchema, referenceCasesSchema } from './reference-cases.ts';
import { rowsWithoutRuleSchema, signOffSchema } from './sign-off.ts';

interface Kind {
  readonly shape: z.ZodType;
  /** Files of this kind: a star stands for any name. */
  readonly files: string;
}

const ofProtocol = (shape: z.ZodType, name: string): Kind => ({ shape, files: `flows/protocol/${name}.yaml` });

const kinds = {
  flow: { shape: flowSchema, files: 'flows/*.yaml' },
  advice: ofProtocol(adviceSchema, 'advice'),
  bilirubin: ofProtocol(bilirubinSchema, 'bilirubin'),
  classifications: ofProtocol(classificationsSchema, 'classifications/*'),
  conditions: ofProtocol(conditionsSchema, 'conditions'),
  contacts: ofProtocol(contactsSchema, 'contacts'),
  contradictions: ofProtocol(contradictionsSchema, 'contradictions'),
  doses: ofProtocol(dosesSchema, 'doses'),
  feeds: ofProtocol(feedsSchema, 'feeds'),
  fields: ofProtocol(fieldsSchema, 'fields'),
  findings: ofProtocol(findingsSchema, 'findings'),
  'follow-up': ofProtocol(followUpSchema, 'follow-up'),
  limits: ofProtocol(limitsSchema, 'limits'),
  needs: ofProtocol(needsSchema, 'needs'),
  rows: ofProtocol(rowsSchema, 'rows'),
  'rows-without-rule': ofProtocol(rowsWithoutRuleSchema, 'rows-without-rule'),
  'sign-off': ofProtocol(signOffSchema, 'sign-off'),
  sources: ofProtocol(sourcesSchema, 'sources'),
  switches: ofProtocol(switchesSchema, 'switches'),
  'must-ask': { shape: mustAskSchema, files: 'flows/reference/must-ask.yaml' },
  places: { shape: placesSchema, files: 'flows/reference/places.yaml' },
  'reference-cases': { shape: referenceCasesSchema, files: 'flows/reference-cases/*.yaml' },
  locale: { shape: localeSchema, files: 'locales/*/*.yaml' },
} as const satisfies Record<string, Kind>;

export type SchemaName = keyof typeof kinds;

export const schemaNames = Object.keys(kinds) as readonly SchemaName[];

/** The schema of one kind of file; its title says which files. */
export function schemaNamed(name: SchemaName): object {
  const { shape, files } = kinds[name];
  return { ...z.toJSONSchema(shape, { io: 'input' }), title: files };
}

/** The schema of this file, such as `flows/protocol/findings.yaml`; null where a coordinator's file has none. */
export function schemaFor(file: string): object | null {
  const name = schemaNames.find((one) => patternOf(kinds[one].files).test(file));
  return name === undefined ? null : schemaNamed(name);
}

function patternOf(files: string): RegExp {
  return new RegExp(`^${files.replaceAll('.', '\\.').replaceAll('*', '[^/]+')}$`);
}
