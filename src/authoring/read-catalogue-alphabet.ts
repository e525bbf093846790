// Characters that a gsm-7 language cannot hold, and what to write in their place. Offers only: what may be replaced
// without asking is src/messages/typography.ts. Next: read-catalogue-messages.ts.

import { alphabetOf, charactersOutside, toPlain } from '../messages/gsm7.ts';

/**
 * Spellings that are a choice for the translator to make. A fraction keeps a space before it, or 2½ would read 21/2; the
 * micro sign becomes "mc" as in mcg, because a lone "u" is misread in doses (common practice, no source).
 */
const spellings: ReadonlyMap<string, string> = new Map(
  [
    '½= 1/2|¼= 1/4|¾= 3/4|×=x|÷=/|±=+/-|≤=<=|≥=>=|→=->|№=No|²=2|³=3|µ=mc|μ=mc|·=.',
    'ɓ=b|Ɓ=B|ɗ=d|Ɗ=D|ƙ=k|Ƙ=K|ƴ=y|Ƴ=Y|ɛ=e|Ɛ=E|ɔ=o|Ɔ=O|ŋ=ng|Ŋ=Ng|đ=d|Đ=D|ł=l|Ł=L|œ=oe|Œ=OE|ı=i|þ=th|ð=d',
  ]
    .flatMap((line) => line.split('|'))
    .map((pair) => [pair.slice(0, 1), pair.slice(2)] as const),
);

/** Characters of a message that turn its text into UCS-2, each once, with what could be written instead. */
export function outsideGsm7(text: string): { readonly character: string; readonly offer: string | null }[] {
  return charactersOutside(toPlain(text)).map((character) => ({ character, offer: offerFor(character) }));
}

function offerFor(character: string): string | null {
  const own = spellings.get(character);
  if (own !== undefined) return own;
  const bare = character.normalize('NFKD').replace(/\p{M}/gu, '');
  return bare !== '' && alphabetOf(bare) === 'gsm-7' ? bare : null;
}
