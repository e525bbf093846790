// Names that stand twice in one JSON object. JSON.parse keeps the last of them without a word, and a sign that was given as
// true and then as false would be lost. Next: read-case.ts, which reads what was parsed.

/**
 * Where a name is given a second time, as the path to it: `[0, 'findings', 'grunting']`.
 *
 * Takes    json: text that JSON.parse has read; what it refuses is not looked at here.
 */
export function namesGivenTwice(json: string): (string | number)[][] {
  const twice: (string | number)[][] = [];
  const open: Level[] = [];
  // Strings are matched whole, so that no brace or comma within one is taken for structure.
  for (const [token] of json.matchAll(/"[^"\\]*(?:\\.[^"\\]*)*"?|[{}[\],:]/g)) {
    const level = open.at(-1);
    if (token === '{') open.push({ kind: 'object', names: new Set(), at: '', awaitsName: true });
    else if (token === '[') open.push({ kind: 'array', at: 0 });
    else if (token === '}' || token === ']') open.pop();
    else if (level === undefined) continue;
    else if (level.kind === 'array') level.at += token === ',' ? 1 : 0;
    else if (token === ',') level.awaitsName = true;
    else if (level.awaitsName && token !== ':') {
      level.at = JSON.parse(token) as string;
      level.awaitsName = false;
      if (level.names.has(level.at)) twice.push(open.map(({ at }) => at));
      level.names.add(level.at);
    }
  }
  return twice;
}

type Level =
  | { readonly kind: 'object'; readonly names: Set<string>; at: string; awaitsName: boolean }
  | { readonly kind: 'array'; at: number };
