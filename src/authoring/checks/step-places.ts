// Where a flow's file names its steps: for checks that speak of one. A file is read again only when there is something to say.

import { wholeFile } from '../diagnostic.ts';
import { scalarsOf } from '../scalars.ts';
import { readYaml, type SourceFile } from '../yaml-source.ts';
import type { Definition } from './definitions.ts';

/** The rest of a region, `<step>-more`, stands under the name of its region. */
export function stepsIn(sources: readonly SourceFile[], flow: string): (step: string) => Definition {
  return (step) => {
    for (const source of sources) {
      const top = readYaml(source, () => {});
      const scalars = top === null ? [] : scalarsOf(top);
      if (!scalars.some(({ under, text }) => under === 'flow' && text === flow)) continue;
      const named = (id: string) => scalars.find(({ under, text }) => under === 'step' && text === id);
      return { file: source.name, range: (named(step) ?? named(step.replace(/-more$/, '')))?.range ?? wholeFile };
    }
    return { file: sources[0]?.name ?? '', range: wholeFile };
  };
}
