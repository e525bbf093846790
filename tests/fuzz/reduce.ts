// Makes a failing input small: leaves out texts where it is a list, then parts of each text, as long as it still fails. Next: run-target.ts.

import type { Input } from './target.ts';

/** Tries are bounded, for one try may take long. */
const mostTries = 400;
const longestMilliseconds = 20_000;

/** The smallest input that was found to fail as well. Takes fails: whether an input fails. */
export async function reduce(input: Input, isList: boolean, fails: (input: Input) => Promise<boolean>): Promise<Input> {
  let tries = 0;
  const until = performance.now() + longestMilliseconds;
  const stillFails = async (one: Input): Promise<boolean> => {
    tries += 1;
    return tries <= mostTries && performance.now() < until && (await fails(one));
  };
  let least = isList ? await without<Input>(input, stillFails) : input;
  for (const at of least.keys()) {
    const text = await without<string>(least[at] ?? '', (shorter) => stillFails(least.map((one, place) => (place === at ? shorter : one))));
    least = least.map((one, place) => (place === at ? text : one));
  }
  return least;
}

/** Leaves out ever smaller stretches of a list or a text. */
async function without<T extends Input | string>(whole: T, stillFails: (shorter: T) => Promise<boolean>): Promise<T> {
  let kept = whole;
  for (let length = Math.ceil(kept.length / 2); length >= 1; length = length === 1 ? 0 : Math.ceil(length / 2)) {
    for (let from = 0; from < kept.length; ) {
      const shorter = kept.slice(0, from).concat(kept.slice(from + length) as never) as T;
      if (await stillFails(shorter)) kept = shorter;
      else from += length;
    }
  }
  return kept;
}
