/** Names in messages. */

/** Longest name that a line bears [characters]. */
const LONGEST = 60;

/** A name as written in the file, not longer than a line bears. */
export function shortName(name: string): string {
  return name.length > LONGEST ? `${name.slice(0, LONGEST - 3)}...` : name;
}
