// The name that was probably meant: the nearest of the names there are. Used wherever an unknown name is refused.

/**
 * The nearest name, or null when none is near enough to be a slip of the hand.
 *
 * Counts letters put in, left out, changed or swapped with their neighbour; a third of the longer word may differ. Where
 * none is near, a name that holds the word.
 */
export function nearestName(word: string, names: Iterable<string>): string | null {
  let nearest: string | null = null;
  let fewest = Number.POSITIVE_INFINITY;
  const longestWord = 100;
  if (word.length > longestWord) return null;
  for (const name of names) {
    const allowed = Math.max(1, Math.floor(Math.max(word.length, name.length) / 3));
    const slips = countSlips(word.toLowerCase(), name.toLowerCase());
    if (slips <= allowed && slips < fewest) {
      nearest = name;
      fewest = slips;
    }
  }
  return nearest ?? nameHolding(word, names);
}

/** A name that was only begun, or only half said: "grunt" for "grunting". The shortest there is. */
function nameHolding(word: string, names: Iterable<string>): string | null {
  const fewestLetters = 3;
  if (word.length < fewestLetters) return null;
  const holding = [...names].filter((name) => name.toLowerCase().includes(word.toLowerCase()));
  return holding.reduce<string | null>((shortest, name) => (shortest === null || name.length < shortest.length ? name : shortest), null);
}

/** Damerau-Levenshtein distance, neighbours swapped counting once. */
function countSlips(from: string, to: string): number {
  let beforeLast: number[] = [];
  let last = Array.from({ length: to.length + 1 }, (_, j) => j);
  for (let i = 1; i <= from.length; i++) {
    const row = [i];
    for (let j = 1; j <= to.length; j++) {
      const same = from[i - 1] === to[j - 1];
      let slips = Math.min((last[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1, (last[j - 1] ?? 0) + (same ? 0 : 1));
      const swapped = i > 1 && j > 1 && from[i - 1] === to[j - 2] && from[i - 2] === to[j - 1];
      if (swapped) slips = Math.min(slips, (beforeLast[j - 2] ?? 0) + 1);
      row.push(slips);
    }
    beforeLast = last;
    last = row;
  }
  return last[to.length] ?? 0;
}
