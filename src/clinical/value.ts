// What can be known of a term: a value, nothing, or only that it was looked for and is normal. Next: judge.ts.

/** Looked for and normal, with no value of its own: what a list means by "everything not listed is normal". */
export const assumedNormal: unique symbol = Symbol('assumed normal');

export type Value = boolean | string | number | readonly number[] | typeof assumedNormal | null | undefined;

/** The term whose value, when it is not known, could be any: a rule that is met but for the age takes the most urgent answer. */
export const ageTerm = 'age';

export const isKnown = (value: Value): boolean => value !== null && value !== undefined;
