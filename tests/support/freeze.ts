// Freezes a value through and through, so that whoever would change it throws.

export function freeze<T>(value: T): T {
  if (typeof value !== 'object' || value === null || Object.isFrozen(value)) return value;
  for (const inner of Object.values(value)) freeze(inner);
  return Object.freeze(value);
}
