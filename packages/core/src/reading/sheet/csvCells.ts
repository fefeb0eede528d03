/** One line of a CSV or TSV sheet to its cells. */

/**
 * The cells as RFC 4180 parts them (Shafranovich, 2005): quotes around a cell keep the delimiter in it, two quotes within are one. A quote
 * within a cell that does not begin with one is itself. Null where a quote does not close.
 *
 * @param delimiter - one character
 */
export function csvCells(line: string, delimiter: string): readonly string[] | null {
  const cells: string[] = [];
  let at = 0;
  for (;;) {
    const quoted = /^ *"/u.exec(line.slice(at));
    if (quoted === null) {
      const end = line.indexOf(delimiter, at);
      cells.push(end < 0 ? line.slice(at) : line.slice(at, end));
      if (end < 0) return cells;
      at = end + 1;
      continue;
    }
    let cell = '';
    let from = at + quoted[0].length;
    for (;;) {
      const close = line.indexOf('"', from);
      if (close < 0) return null;
      cell += line.slice(from, close);
      from = close + 1;
      if (line[from] !== '"') break;
      cell += '"';
      from += 1;
    }
    const end = line.indexOf(delimiter, from);
    const rest = end < 0 ? line.slice(from) : line.slice(from, end);
    // What follows a closed quote belongs to no cell.
    if (rest.trim() !== '') return null;
    cells.push(cell);
    if (end < 0) return cells;
    at = end + 1;
  }
}
