// Keeps words beside a plot from lying over one another. Pure.

/** The same heights, each at least `gap` above the one before. Takes  ys: from the lowest on the page upwards, largest first. */
export function spread(ys: readonly number[], gap: number): number[] {
  let last = Number.POSITIVE_INFINITY;
  return ys.map((y) => {
    last = Math.min(y, last - gap);
    return last;
  });
}

/** Those that have room: the earlier in the list takes its place first. */
export function withRoom<One extends { readonly y: number }>(ones: readonly One[], gap: number): One[] {
  const kept: One[] = [];
  for (const one of ones) if (kept.every(({ y }) => Math.abs(y - one.y) >= gap)) kept.push(one);
  return kept;
}
