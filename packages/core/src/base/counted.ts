/** Numbers of things in messages. */

/** `1 row`, `3 rows`. */
export function counted(count: number, noun: string): string {
  return `${count} ${noun}${count === 1 ? '' : 's'}`;
}
