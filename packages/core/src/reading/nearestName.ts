/** The name somebody probably meant. */

/** Farthest a name may be from what was written, in edits, as a share of its length. */
const FARTHEST = 0.4;

/** Fewest letters that stand for a whole name. */
const LEAST_LETTERS = 3;

/** The candidate fewest edits away from `written`, upper and lower case alike, or cut short in it; null where none is near. */
export function nearestName(written: string, candidates: readonly string[]): string | null {
  let nearest: string | null = null;
  let distance = Number.POSITIVE_INFINITY;
  for (const candidate of candidates) {
    const edits = editDistance(foldedName(written), foldedName(candidate));
    if (edits < distance) {
      distance = edits;
      nearest = candidate;
    }
  }
  const longest = nearest === null ? 0 : Math.max(foldedName(written).length, foldedName(nearest).length);
  return distance <= Math.max(1, longest * FARTHEST) ? nearest : cutShort(foldedName(written), candidates);
}

/** `temp` for temperature: the one candidate that begins so, or of several that begin alike the whole beginning of the others. */
function cutShort(written: string, candidates: readonly string[]): string | null {
  if (written.length < LEAST_LETTERS) return null;
  const longer = candidates.filter((candidate) => foldedName(candidate).startsWith(written));
  const shared = longer.find((candidate) => longer.every((other) => other.startsWith(candidate)));
  return shared ?? null;
}

/** A name as names are compared: case, blanks, dashes, dots and underscores are not what makes one different. */
export function foldedName(name: string): string {
  return name
    .slice(0, 60)
    .toLowerCase()
    .replace(/[\s._-]/gu, '');
}

/** Insertions, deletions, replacements and swaps of neighbours that turn `a` into `b` (optimal string alignment). */
function editDistance(a: string, b: string): number {
  let beforeLast: readonly number[] = [];
  let last: readonly number[] = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i += 1) {
    const current = [i];
    for (let j = 1; j <= b.length; j += 1) {
      const replaced = last[j - 1] + (a[i - 1] === b[j - 1] ? 0 : 1);
      let edits = Math.min(replaced, last[j] + 1, current[j - 1] + 1);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        edits = Math.min(edits, beforeLast[j - 2] + 1);
      current.push(edits);
    }
    beforeLast = last;
    last = current;
  }
  return last[b.length];
}
