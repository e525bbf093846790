// What may be written at a place of a file, read off its JSON Schema: the keys and values that are allowed there, with what they
// mean. Runs in a browser beside the console's editor and in the command, so it imports nothing. Next: schema-for.ts.

/** Keys of maps and indices of lists, from the top of the file. */
export type Path = readonly (string | number)[];

export interface Completion {
  readonly text: string;
  /** What it means, in plain words; empty where the schema says nothing. */
  readonly says: string;
}

export interface Completions {
  /** Needed: the map cannot do without it, whatever else stands in it. */
  readonly keys: readonly (Completion & { readonly needed: boolean })[];
  readonly values: readonly Completion[];
  /**
   * Of what kind the names are that may stand there as a key or a value: `finding`, `row`, `switch`; also `leaf` of a condition.
   * The schema does not know the names themselves; who knows the protocol may offer them.
   */
  readonly keyNames: readonly string[];
  readonly valueNames: readonly string[];
}

type Schema = Readonly<Record<string, unknown>>;

/** One of the shapes that a place may have, with nothing left to look up. */
interface Shape {
  readonly schema: Schema;
  readonly says: string;
  /** The shared shapes that led here. */
  readonly names: readonly string[];
}

/** What may stand at this place; nothing where the schema allows nothing. Never throws on a place that is not in the file. */
export function completionsFor(schema: object, path: Path): Completions {
  const root = schema as Schema;
  const here = path.reduce<Shape[]>(
    (shapes, step) => shapes.flatMap((shape) => below(shape.schema, step).flatMap((one) => shapesOf(one, root))),
    shapesOf(root, root),
  );
  return {
    keys: keysOf(here, root),
    values: distinct(here.flatMap(valuesOf)),
    keyNames: [...new Set(here.flatMap((shape) => nameIn(shape.schema.propertyNames)))],
    valueNames: [...new Set(here.filter(({ schema: { type } }) => isScalar(type)).flatMap(({ names }) => names))],
  };
}

/** The shapes behind `$ref`, `anyOf`, `oneOf` and `allOf`. A shape that only refers to itself in a circle is none. */
function shapesOf(schema: unknown, root: Schema, says = '', names: readonly string[] = []): Shape[] {
  if (!isSchema(schema)) return [];
  const [name] = nameIn(schema);
  const own = saysOf(schema, root) || says;
  const choices = (['anyOf', 'oneOf', 'allOf'] as const).flatMap((word) => listIn(schema[word]));
  const inner = choices.flatMap((one) => shapesOf(one, root, own, names));
  if (name === undefined) return [{ schema, says: own, names }, ...inner];
  if (names.includes(name)) return inner;
  return [
    ...shapesOf(definition(name, root), root, own, [...names, name]).map((shape) => ({ ...shape, says: shape.says || own })),
    ...inner,
  ];
}

function below({ properties, additionalProperties, prefixItems, items }: Schema, step: string | number): unknown[] {
  if (typeof step === 'number') return [listIn(prefixItems)[step] ?? items];
  if (isSchema(properties) && Object.hasOwn(properties, step)) return [properties[step]];
  return [additionalProperties];
}

function keysOf(shapes: readonly Shape[], root: Schema): Completions['keys'] {
  const maps = shapes.filter(({ schema }) => isSchema(schema.properties));
  const keys = maps.flatMap(({ schema: { properties } }) =>
    Object.entries(properties as Schema).map(([text, schema]) => ({
      text,
      says: isSchema(schema) ? saysOf(schema, root) : '',
      needed: maps.every((map) => listIn(map.schema.required).includes(text)),
    })),
  );
  return distinct(keys);
}

function valuesOf({ schema, says }: Shape): Completion[] {
  const words = 'const' in schema ? [schema.const] : listIn(schema.enum);
  const ofType = schema.type === 'boolean' ? [true, false] : schema.type === 'null' ? [null] : [];
  return [...words, ...ofType].map((word) => ({ text: String(word), says }));
}

/** What is said here, else what is said of the shared shape. */
function saysOf(schema: Schema, root: Schema): string {
  if (typeof schema.description === 'string') return schema.description;
  const [name] = nameIn(schema);
  const shared = name === undefined ? undefined : definition(name, root);
  return isSchema(shared) && typeof shared.description === 'string' ? shared.description : '';
}

const definitions = '#/$defs/';

function nameIn(schema: unknown): string[] {
  const ref = isSchema(schema) ? schema.$ref : undefined;
  return typeof ref === 'string' && ref.startsWith(definitions) ? [ref.slice(definitions.length)] : [];
}

function definition(name: string, root: Schema): unknown {
  return isSchema(root.$defs) ? root.$defs[name] : undefined;
}

function isSchema(value: unknown): value is Schema {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function isScalar(type: unknown): boolean {
  return type === 'string' || type === 'number';
}

function listIn(value: unknown): readonly unknown[] {
  return Array.isArray(value) ? value : [];
}

/** Each text once, as it is first said. */
function distinct<C extends Completion>(completions: readonly C[]): C[] {
  const byText = new Map<string, C>();
  for (const one of completions) if (!byText.has(one.text)) byText.set(one.text, one);
  return [...byText.values()];
}
