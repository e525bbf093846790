// What a classification lists as advice, as far as it is said where the classification is so urgent. Next: advise.ts, which puts together
// the advice of all that was given.

import type { ClassificationRule, Protocol, Urgency } from './protocol.ts';

const placesOfAll = new WeakMap<Protocol, ReadonlyMap<string, number>>();

/** The places of it among all advice, in the order to act. */
export function listedAdvice(protocol: Protocol, { advice }: Pick<ClassificationRule, 'advice'>, urgency: Urgency): number[] {
  const places = placesOf(protocol);
  return advice
    .flatMap((key) => places.get(key) ?? [])
    .filter((place) => protocol.advice[place]?.onlyFor.includes(urgency))
    .sort((one, other) => one - other);
}

function placesOf(protocol: Protocol): ReadonlyMap<string, number> {
  const known = placesOfAll.get(protocol);
  if (known !== undefined) return known;
  const places = new Map(protocol.advice.map(({ key }, place) => [key, place]));
  placesOfAll.set(protocol, places);
  return places;
}
