/** The lines of a part file: one that says who made it, then one a forecast. Parts are joined by putting one behind the other. */
import type { Curve } from '@valvetide/core';

/** What a line holds; null for a line that was cut short or is none of ours. */
export type PartLine = { readonly version: string } | { readonly key: string } | null;

export function headLine(version: string): string {
  return `{"valvetide":"${version}","holds":"forecasts"}`;
}

/** The count of characters tells a line that was cut short, as by a crash, from a whole one. */
export function curveLine(key: string, curve: Curve): string {
  const text = JSON.stringify(curve);
  return `{"key":"${key}","characters":${text.length},"curve":${text}}`;
}

const HEAD = /^\{"valvetide":"([^"]{1,40})","holds":"forecasts"\}$/;
const ENTRY = /^\{"key":"([0-9a-f]{32})","characters":(\d{1,12}),"curve":/;

export function readLine(line: string): PartLine {
  const head = HEAD.exec(line);
  if (head !== null) return { version: head[1] };
  const entry = ENTRY.exec(line);
  if (entry === null || line.length !== entry[0].length + Number(entry[2]) + 1) return null;
  return { key: entry[1] };
}

/** The curve of a whole line. */
export function curveOfLine(line: string): Curve {
  return (JSON.parse(line) as { curve: Curve }).curve;
}
