/** The way through a text: what was met on it, where each field stands and what is wrong with it. */

import { isAlias, isMap, isScalar, isSeq, LineCounter } from 'yaml';
import type { PlainCode, Problem } from '../../combination/problem.ts';

/** What is kept while a text is turned into plain values. */
export interface Walk {
  readonly file: string;
  readonly lines: LineCounter;
  readonly positions: Record<string, { line: number; column: number }>;
  readonly problems: Problem[];
  /** Fields and list entries met so far. */
  met: number;
}

/** A way that has yet to begin. */
export function newWalk(file: string): Walk {
  return { file, lines: new LineCounter(), positions: {}, problems: [], met: 0 };
}

/** Where in a text a problem is; nowhere, where it is one of the whole file. */
export interface Spot {
  /** [characters from its beginning] */
  readonly offset: number | null;
  /** Field of the file; empty for the whole file. */
  readonly path: string;
}

export const WHOLE_FILE: Spot = { offset: null, path: '' };

/** Where a node begins, as the spot of a field. */
export function spotOf(node: unknown, path: string): Spot {
  return { offset: offsetOf(node), path };
}

/** What is said of a problem: its code, its message and a hint, where there is one. */
export type Complaint = readonly [code: PlainCode, message: string, hint?: string];

export function problemAt(walk: Walk, { offset, path }: Spot, [code, message, hint]: Complaint): Problem {
  const place = offset === null ? null : walk.lines.linePos(offset);
  return {
    file: walk.file,
    line: place?.line ?? null,
    column: place?.col ?? null,
    path,
    code,
    message,
    hint: hint ?? null,
  };
}

export function complain(walk: Walk, spot: Spot, ...complaint: Complaint): void {
  walk.problems.push(problemAt(walk, spot, complaint));
}

/** Keeps where the field at a path stands. */
export function notePosition(node: unknown, path: string, walk: Walk): void {
  const offset = offsetOf(node);
  if (offset === null) return;
  const { line, col } = walk.lines.linePos(offset);
  walk.positions[path] = { line, column: col };
}

function offsetOf(node: unknown): number | null {
  const range = isAlias(node) || isScalar(node) || isMap(node) || isSeq(node) ? node.range : null;
  return range?.[0] ?? null;
}
