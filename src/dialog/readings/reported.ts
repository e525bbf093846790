// The rest of a quick report: signs sent as a word (FED, STOOL-, GRUNT) and body regions sent by name with their digits or the
// word for normal (HEAD 0, SKIN 8, CORD OK). One region at a time: no word calls a whole baby normal.
// Labelled measures are taken by labelled.ts.

import type { FindingValue } from '../../clinical/protocol.ts';
import { isWord, type Words } from './words.ts';

export interface Reported {
  readonly signs: Readonly<Record<string, FindingValue>>;
  /** Step of the region -> what was sent for it. */
  readonly regions: readonly { readonly step: string; readonly pieces: readonly string[] }[];
  /** Pieces that are neither, in order. */
  readonly rest: readonly string[];
}

/** Takes  stepFor: which of the steps that a region's name stands for is meant, such as the one for boys. */
export function takeReported(pieces: readonly string[], words: Words, stepFor: (steps: readonly string[]) => string | undefined): Reported {
  const signs: Record<string, FindingValue> = {};
  const regions: { step: string; pieces: readonly string[] }[] = [];
  const rest: string[] = [];
  for (let at = 0; at < pieces.length; at += 1) {
    const piece = pieces[at] ?? '';
    const sign = words.signs.get(piece);
    if (sign !== undefined) {
      Object.assign(signs, signOf(sign));
      continue;
    }
    const region = regionOf(piece, pieces[at + 1], words, stepFor);
    if (region === null) {
      rest.push(piece);
      continue;
    }
    regions.push({ step: region.step, pieces: [region.said] });
    at += region.used - 1;
  }
  return { signs, regions, rest };
}

/** `grunting`, `tone=floppy`; `=no`: looked for and not there. */
function signOf(name: string): Record<string, FindingValue> {
  const [of = '', option] = name.split('=');
  return { [of]: option === undefined ? true : option === 'no' ? false : option };
}

/** `head 13`, `head=13`, `head ok`. A name without either is no report of the region. */
function regionOf(
  piece: string,
  next: string | undefined,
  words: Words,
  stepFor: (steps: readonly string[]) => string | undefined,
): { step: string; said: string; used: number } | null {
  const [name = '', inside] = piece.split(/[:=]/);
  const steps = words.regions.get(name);
  const said = inside ?? next;
  if (steps === undefined || said === undefined) return null;
  if (!/^[0-9][0-9,.*]*$/.test(said) && !isWord(words, 'none', said)) return null;
  const step = stepFor(steps);
  return step === undefined ? null : { step, said, used: inside === undefined ? 2 : 1 };
}
