// Reads sign-off.yaml: what a newborn lead must decide before live use, and where each value that hangs on it stands.
// Nothing is signed here: src/cli/sign-off.ts prints the list. How values are found: touched-values.ts.

import type { Proof, Protocol } from '../clinical/protocol.ts';
import type { RowWithoutRule } from './read-rows-without-rule.ts';
import type { RowUses } from './row-uses.ts';
import { stepsOfTables, type Tops, type Touched, valuesOfLimit, valuesOfRow, valuesOfSwitch } from './touched-values.ts';
import { fieldsOf, itemsOf, needed, type Place, type Report, textOf, unknownName, wordOf } from './yaml-source.ts';

export interface SignOffItem {
  readonly id: string;
  /** What is to be decided, in a sentence. */
  readonly decide: string;
  readonly touches: readonly Touched[];
  /** It also touches every row that is proved no better than this. */
  readonly proofs: readonly Proof[];
}

interface Known {
  readonly protocol: Pick<Protocol, 'limits' | 'switches' | 'rows'>;
  readonly tops: Tops;
  readonly uses: RowUses;
  readonly without: readonly RowWithoutRule[];
}

const why = 'The newborn lead would sign for something else than what runs.';
const proofs: readonly Proof[] = ['from-memory', 'project'];

export function readSignOff(top: Place, { protocol, tops, uses, without }: Known, report: Report): SignOffItem[] {
  const tables = stepsOfTables(tops);
  const list = fieldsOf(top, ['sign-off'], report).get('sign-off');
  return (list ? itemsOf(list) : []).flatMap((item) => {
    const fields = fieldsOf(item, ['item', 'decide', 'limits', 'switches', 'tables', 'rows', 'proof'], report);
    const [idPlace, decidePlace] = [needed(fields, 'item', item, report), needed(fields, 'decide', item, report)];
    const id = idPlace && textOf(idPlace, report);
    const decide = decidePlace && textOf(decidePlace, report);
    if (!id || !decide) return [];
    const touched = (
      kind: 'limit' | 'switch' | 'table' | 'row',
      known: ReadonlyMap<string, unknown>,
      find: (name: string) => Touched[],
    ) => {
      const place = fields.get(kind === 'switch' ? 'switches' : `${kind}s`);
      return (place ? itemsOf(place) : []).flatMap((one) => {
        const name = textOf(one, report);
        if (name === null || known.has(name)) return name === null ? [] : find(name);
        // An unknown row is reported with all others, by protocol-names.ts.
        if (kind !== 'row') report(unknownName(one, one.range, `protocol/unknown-${kind}`, kind, name, known.keys(), why));
        return [];
      });
    };
    const touches = [
      ...touched('limit', protocol.limits, (name) => valuesOfLimit(name, tops)),
      ...touched('switch', protocol.switches, (name) => valuesOfSwitch(name, tops)),
      ...touched('table', tables, (name) => tables.get(name) ?? []),
      ...touched('row', protocol.rows, (name) => valuesOfRow(name, uses, without)),
    ];
    const proof = fields.get('proof');
    return [
      {
        id,
        decide,
        touches: eachLineOnce(touches),
        proofs: proof ? itemsOf(proof).flatMap((one) => wordOf(one, proofs, report) ?? []) : [],
      },
    ];
  });
}

function eachLineOnce(touches: readonly Touched[]): Touched[] {
  const lines = new Map<string, Touched>();
  for (const one of touches) {
    const line = `${one.file}:${one.range.start.line}`;
    if (!lines.has(line)) lines.set(line, one);
  }
  return [...lines.values()];
}
