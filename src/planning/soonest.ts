// What happens next: values at instants, taken out soonest first. A binary heap, so that thousands of nurses cost little. Pure but for
// its own state. Next: desk.ts, rota-clock.ts.

export interface Soonest<T> {
  readonly add: (at: number, value: T) => void;
  /** Undefined when there is nothing left. Of two at one instant the one that was added first. */
  readonly take: () => { readonly at: number; readonly value: T } | undefined;
}

interface Item<T> {
  readonly at: number;
  readonly order: number;
  readonly value: T;
}

export function soonestFirst<T>(): Soonest<T> {
  const heap: Item<T>[] = [];
  let added = 0;
  const isBefore = (one: Item<T>, other: Item<T>): boolean => one.at < other.at || (one.at === other.at && one.order < other.order);
  const rise = (item: Item<T>): void => {
    let place = heap.length;
    while (place > 0) {
      const above = (place - 1) >> 1;
      const parent = heap[above] as Item<T>;
      if (!isBefore(item, parent)) break;
      heap[place] = parent;
      place = above;
    }
    heap[place] = item;
  };
  const sink = (item: Item<T>): void => {
    let place = 0;
    for (;;) {
      const left = 2 * place + 1;
      if (left >= heap.length) break;
      const right = left + 1;
      const below = right < heap.length && isBefore(heap[right] as Item<T>, heap[left] as Item<T>) ? right : left;
      const child = heap[below] as Item<T>;
      if (!isBefore(child, item)) break;
      heap[place] = child;
      place = below;
    }
    heap[place] = item;
  };
  return {
    add: (at, value) => {
      rise({ at, order: added, value });
      added += 1;
    },
    take: () => {
      const [first] = heap;
      const last = heap.pop();
      if (first !== undefined && last !== undefined && first !== last) sink(last);
      return first;
    },
  };
}
