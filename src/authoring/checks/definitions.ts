// Where a protocol's files define a finding, a field, a classification or a named condition: for checks that speak of one.
// The files are read again only when there is something to say. Next: floor-coverage.ts.

import { type Range, wholeFile } from '../diagnostic.ts';
import { scalarsOf } from '../scalars.ts';
import { entriesOf, readYaml, type SourceFile } from '../yaml-source.ts';

export interface Definition {
  readonly file: string;
  readonly range: Range;
}

const definers = ['finding', 'field', 'classification', 'advice'] as const;

/**
 * The place of a name's definition; the first line of the first file for a name that is defined nowhere.
 *
 * Takes    first: what is meant where a finding and a classification have one name, such as grunting.
 */
export function definitionsIn(sources: readonly SourceFile[], first?: (typeof definers)[number]): (name: string) => Definition {
  let known: Map<string, Definition> | undefined;
  return (name) => {
    known ??= readDefinitions(sources);
    return known.get(`${first} ${name}`) ?? known.get(name) ?? { file: sources[0]?.name ?? '', range: wholeFile };
  };
}

function readDefinitions(sources: readonly SourceFile[]): Map<string, Definition> {
  const known = new Map<string, Definition>();
  for (const source of sources) {
    const top = readYaml(source, () => {});
    if (top === null) continue;
    const named = entriesOf(top, () => {}).filter((entry) => entry.key === 'conditions');
    const keys = named.flatMap((entry) => entriesOf(entry, () => {})).map(({ key, keyRange }) => ({ text: key, range: keyRange }));
    const defined = scalarsOf(top).filter(({ under }) => (definers as readonly string[]).includes(under));
    for (const { under, text, range } of [...keys.map((key) => ({ ...key, under: '' })), ...defined])
      for (const name of [text, `${under} ${text}`]) if (!known.has(name)) known.set(name, { file: source.name, range });
  }
  return known;
}
