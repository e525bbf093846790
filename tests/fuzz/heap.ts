// How much larger the heap may be at the end of a run than after its first tenth: what is compiled and cached still grows a little,
// and a leak of one kilobyte in a hundred inputs is more than this in a long run.

export const heapMayGrowKilobytes = 16_000;
