// The rest of a quick report: signs sent as a word (FED, STOOL-, GRUNT) and body regions sent by name with their digits or the
// word for normal (HEAD 0, SKIN 8, CORD OK). One region at a time: no word calls a whole baby normal.
// Labelled measures are taken by labelled.ts.

import type { FindingValue } from '../../clinical/protocol.ts';
import { isWord, type Words } from './words.ts';

export interface Reported {
  readonly signs: Readonly<Record<string, FindingValue>>;
  readonly regions: readonly ReportedRegion[];
  /** Pieces that are neither, in order. */
  readonly rest: readonly string[];
  /** All but the regions, in order. */
  readonly besideRegions: readonly string[];
}

export interface ReportedRegion {
  /** Those that the name stands for: `genitals`: `girl`, `boy`. */
  readonly names: readonly string[];
  /** Its digits, or the word for normal. */
  readonly said: string;
  /** As it was sent. */
  readonly text: string;
}

export type Asked =
  /** By a question of its own. */
  | 'apart'
  /** The question that is shown asks on about it: its name stands in the title, and the digits are those of that question. */
  | 'on-screen'
  /** Nowhere, such as that of a girl where the baby is a boy; it is no report. */
  | 'not';

/** Takes  askedWhere: where one of these regions is asked. */
export function takeReported(pieces: readonly string[], words: Words, askedWhere: (names: readonly string[]) => Asked): Reported {
  const signs: Record<string, FindingValue> = {};
  const regions: ReportedRegion[] = [];
  const rest: string[] = [];
  const besideRegions: string[] = [];
  for (let at = 0; at < pieces.length; at += 1) {
    const piece = pieces[at] ?? '';
    const sign = words.signs.get(piece);
    if (sign !== undefined) {
      Object.assign(signs, signOf(sign));
      besideRegions.push(piece);
      continue;
    }
    const region = regionOf(piece, pieces[at + 1], words);
    const asked = region === null ? 'not' : askedWhere(region.names);
    if (region === null || asked === 'not') {
      rest.push(piece);
      besideRegions.push(piece);
      continue;
    }
    if (asked === 'apart') regions.push(region);
    else {
      rest.push(region.said);
      besideRegions.push(region.text);
    }
    if (region.text !== piece) at += 1;
  }
  return { signs, regions, rest, besideRegions };
}

/** `grunting`, `tone=floppy`; `=no`: looked for and not there. */
function signOf(name: string): Record<string, FindingValue> {
  const [of = '', option] = name.split('=');
  return { [of]: option === undefined ? true : option === 'no' ? false : option };
}

/** `head 13`, `head=13`, `head ok`. A name without either is no report of the region. */
function regionOf(piece: string, next: string | undefined, words: Words): ReportedRegion | null {
  const [name = '', inside] = piece.split(/[:=]/);
  const names = words.regions.get(name);
  const said = inside ?? next;
  if (names === undefined || said === undefined) return null;
  if (!/^[0-9][0-9,.*]*$/.test(said) && !isWord(words, 'none', said)) return null;
  return { names, said, text: inside === undefined ? `${piece} ${said}` : piece };
}
