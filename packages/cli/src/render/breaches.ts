/** What the fuel or a stated limit forbids, in words. */
import type { Breach } from '@valvetide/core';
import { plain } from './plain.ts';

/** The name, marked where it breaks a limit. */
export function markedName(name: string, { breaches }: { readonly breaches: readonly Breach[] }): string {
  return breaches.length === 0 ? name : `${name} !`;
}

/** What the mark means; empty where nothing is marked. */
export function breachLegend(all: readonly { readonly breaches: readonly Breach[] }[]): string {
  return all.some(({ breaches }) => breaches.length > 0) ? '! breaks a limit, see the warnings' : '';
}

/** A warning that {@link breachWarnings} does not tell, as what it breaks. */
export function isNoBreach({ code }: { readonly code: string }): boolean {
  return code !== 'beyond-limit';
}

/** A warning for each limit that it breaks. */
export function breachWarnings(
  name: string,
  { breaches }: { readonly breaches: readonly Breach[] },
): readonly string[] {
  return breaches.map(({ message }) => plain(`warning: ${name} breaks a limit: ${message}`));
}

/** All of it in one cell. */
export function breachCell(breaches: readonly Breach[]): string {
  return breaches.map(({ message }) => message).join('; ');
}
