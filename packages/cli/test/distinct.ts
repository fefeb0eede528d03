/** Results whose every number is another, so that one that stands in the place of another is seen. */

/** All numbers within a value made 10.5, 11.5, 12.5 ... in their order; all else as it is. */
export function distinct<Value>(value: Value): Value {
  let last = 9.5;
  const made = (of: unknown): unknown => {
    if (typeof of === 'number') {
      last += 1;
      return last;
    }
    if (Array.isArray(of)) return of.map(made);
    if (of === null || typeof of !== 'object') return of;
    return Object.fromEntries(Object.entries(of).map(([key, field]) => [key, made(field)]));
  };
  return made(value) as Value;
}
