// The codes that src/authoring can say, found in its text: `area/what-is-wrong` as it stands, and what is joined to an area where the
// area is written once for a whole reader.

import { filesUnder, textOf } from '../../architecture/tree.ts';

/** Strings of that form that are no code: packages and units. */
const noCodes: readonly string[] = ['csv-parse/sync', 'csv-stringify/sync', 'cm/week'];

/** Where only the second half of a code is written: the files, what stands before it, and its area. */
const joined: readonly (readonly [files: RegExp, before: RegExp, area: string])[] = [
  [/read-roster|checks\/roster-/, /faultOf\(\s*row,\s*(?:cell|cellOf\([^)]*\)),\s*'([a-z-]+)'/g, 'roster'],
  [/read-roster-phone/, /code: '([a-z-]+)'/g, 'roster'],
  [/read-roster-pin/, /refuse\('([a-z-]+)'/g, 'roster'],
  [/read-growth|read-csv/, /tableFault\([^']*'((?!error)[a-z-]+)'/g, 'growth-table'],
  [/safety-floor/, /\['((?!recheck)[a-z-]+)', /g, 'floor'],
  [/read-expected/, /knownNames\([^)]*'(row|classification|finding)'/g, 'floor/unknown'],
  [/read-sign-off/, /kind: '(limit)' \| 'switch' \| 'table'/g, 'protocol/unknown'],
  [/contradicting-rules|flow-order/, /tell\([^;]*?'([a-z]+(?:-[a-z]+)+)'/g, ''],
];

export function codesSaid(): string[] {
  const codes = new Set<string>();
  for (const path of filesUnder('src/authoring')) {
    const text = textOf(path);
    for (const [, code = ''] of text.matchAll(/'([a-z-]+\/[a-z-]+)'/g)) if (!noCodes.includes(code)) codes.add(code);
    for (const [files, before, area] of joined) {
      if (!files.test(path)) continue;
      const own = area === '' ? (path.includes('flow-order') ? 'flow' : 'protocol') : area;
      for (const [, code = ''] of text.matchAll(before)) codes.add(own.includes('/') ? `${own}-${code}` : `${own}/${code}`);
    }
  }
  return [...codes].sort();
}
