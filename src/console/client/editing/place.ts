// Where in a YAML file the cursor stands: the keys and indices down to it, and what is being typed there. A placeholder is put in the
// place of what is half typed, so that the parser, which knows YAML, says the rest. Next: completion.ts.

import { yamlLanguage } from '@codemirror/lang-yaml';

type SyntaxNode = ReturnType<typeof yamlLanguage.parser.parse>['topNode'];

export interface Place {
  /** As completionsFor takes it. */
  readonly path: readonly (string | number)[];
  /** Where the word that is being typed begins. */
  readonly from: number;
  /** A key, a value, or either: a place that is empty yet. */
  readonly takes: 'key' | 'value' | 'either';
  /** True: the colon stands behind it already. */
  readonly hasColon: boolean;
  /** Keys that stand in the same map. */
  readonly others: readonly string[];
}

const placeholder = 'here';

/** Null: in a comment, or where YAML has no place. */
export function placeAt(text: string, position: number): Place | null {
  const lineStart = text.lastIndexOf('\n', position - 1) + 1;
  const line = text.slice(lineStart, position);
  if (/(^|\s)#/.test(line)) return null;
  const head = /^.*(?::\s+|[[{,]\s*)/.exec(line)?.[0] ?? /^\s*(?:-\s+)*/.exec(line)?.[0] ?? '';
  const typed = line.slice(head.length);
  const rest = /^[^\s,[\]{}:#]*/.exec(text.slice(position))?.[0] ?? '';
  const end = position + rest.length;
  const hasColon = /^\s*:(\s|$)/.test(text.slice(end, end + 80));
  const isValue = /:\s+$/.test(head) || /\s/.test(typed);
  const start = lineStart + head.length;
  const put = isValue || hasColon ? placeholder : `${placeholder}: ${placeholder}`;
  const whole = `${text.slice(0, start)}${put}${text.slice(end)}`;
  const own = yamlLanguage.parser.parse(whole).resolveInner(start, 1);
  if (own.name !== 'Literal') return null;
  const pair = own.parent?.name === 'Key' ? own.parent.parent : null;
  const others = pair === null ? [] : pairsOf(pair.parent).flatMap((one) => (sameNode(one, pair) ? [] : keyOf(one, whole)));
  return {
    path: pathTo(pair?.parent ?? own, whole),
    from: start + typed.length - (typed.split(/\s/).at(-1) ?? '').length,
    takes: pair === null ? 'value' : others.length > 0 || hasColon ? 'key' : 'either',
    hasColon,
    others,
  };
}

function pathTo(node: SyntaxNode, text: string): (string | number)[] {
  const path: (string | number)[] = [];
  for (let one: SyntaxNode | null = node; one !== null; one = one.parent) {
    if (one.name === 'Pair') path.unshift(keyOf(one, text));
    if (one.name === 'Item') path.unshift(placeAmongItems(one));
  }
  return path;
}

function placeAmongItems(item: SyntaxNode): number {
  let place = 0;
  for (let before = item.prevSibling; before !== null; before = before.prevSibling) if (before.name === 'Item') place += 1;
  return place;
}

function pairsOf(map: SyntaxNode | null): SyntaxNode[] {
  return map?.getChildren('Pair') ?? [];
}

function keyOf(pair: SyntaxNode, text: string): string {
  const key = pair.getChild('Key');
  return key === null ? '' : text.slice(key.from, key.to).replace(/^(['"])(.*)\1$/, '$2');
}

function sameNode(one: SyntaxNode, other: SyntaxNode): boolean {
  return one.from === other.from && one.name === other.name;
}
