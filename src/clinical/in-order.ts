// A short list of places, kept in order, each once: what is added is put where it belongs.

/** For few places: looking through them costs less than a mark for each of hundreds. */
export function addInOrder(places: number[], added: readonly number[]): void {
  for (const place of added) {
    let at = places.length;
    while (at > 0 && (places[at - 1] as number) > place) at -= 1;
    if (at > 0 && places[at - 1] === place) continue;
    for (let later = places.length; later > at; later -= 1) places[later] = places[later - 1] as number;
    places[at] = place;
  }
}
