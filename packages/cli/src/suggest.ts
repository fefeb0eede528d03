/** "Did you mean": the nearest known word, when one is near enough. */

/** The candidate fewest edits away from `word`; undefined where even the nearest is a different word. */
export function suggest(word: string, candidates: readonly string[]): string | undefined {
  let nearest: string | undefined;
  let fewest = Math.max(1, Math.floor(word.length / 3)) + 1;
  for (const candidate of candidates) {
    const edits = editDistance(word.toLowerCase(), candidate.toLowerCase());
    if (edits < fewest) {
      fewest = edits;
      nearest = candidate;
    }
  }
  return nearest;
}

/**
 * Insertions, deletions, substitutions and swaps of neighbours between two words
 * (Damerau 1964, in the restricted form where no part is edited twice).
 */
export function editDistance(a: string, b: string): number {
  const rows: number[][] = [Array.from({ length: b.length + 1 }, (_, j) => j)];
  for (let i = 1; i <= a.length; i++) {
    const row: number[] = [i];
    for (let j = 1; j <= b.length; j++) {
      const substitution = rows[i - 1][j - 1] + (a[i - 1] === b[j - 1] ? 0 : 1);
      let best = Math.min(rows[i - 1][j] + 1, row[j - 1] + 1, substitution);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) {
        best = Math.min(best, rows[i - 2][j - 2] + 1);
      }
      row.push(best);
    }
    rows.push(row);
  }
  return rows[a.length][b.length];
}
