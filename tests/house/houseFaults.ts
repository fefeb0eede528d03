/** The house rules a compiler doesn't know: which room may import which, and what the library may reach for. */
import { isBuiltin } from 'node:module';
import { posix } from 'node:path';
import { type ModuleFacts, readModule } from './readModule.ts';

/** Rooms of the library, ground floor first. A file may import its own room and those before it. */
export const ROOMS: readonly string[] = [
  'base',
  'numerics',
  'gas',
  'geometry',
  'processes',
  'network',
  'combination',
  'reading',
  'assembly',
  'cycle',
  'forecast',
  'dyno',
  'changes',
  'studies',
  'uncertainty',
  'ranking',
  'choosing',
  'calibration',
];

/** The world outside: a library that touches none of it gives the same bits for the same input, anywhere. */
const impure = new Set([
  ...['process', 'console', 'Date', 'performance', 'globalThis', 'window', 'self', 'document', 'navigator'],
  ...['Buffer', 'crypto', 'fetch', 'require', '__dirname', '__filename', 'Intl', 'Math.random'],
  ...['setTimeout', 'setInterval', 'setImmediate', 'queueMicrotask'],
]);

/** What one file may reach for all the same. A turn of the event loop alters no result, and every host has a timer for it. */
const ALLOWED: ReadonlyMap<string, readonly string[]> = new Map([
  ['packages/core/src/base/turn.ts', ['setTimeout']],
]);

const core = 'packages/core/src/';
const cli = 'packages/cli/src/';

/** Every breach among `sources` (path from the repository's root to text), one line each; empty when all is well. */
export function houseFaults(sources: ReadonlyMap<string, string>): string[] {
  const faults: string[] = [];
  const edges = new Map<string, string[]>();
  for (const [path, text] of sources) {
    const facts = readModule(path, text);
    if (facts.hasDefaultExport) faults.push(`${path}: default export`);
    if (facts.isBarrel && path !== `${core}index.ts`) faults.push(`${path}: only re-exports, a barrel`);
    const targets: string[] = [];
    for (const specifier of facts.imports) {
      if (!specifier.startsWith('.')) {
        faults.push(...packageFaults(path, specifier));
        continue;
      }
      const target = posix.join(posix.dirname(path), specifier);
      if (!sources.has(target)) faults.push(`${path}: imports ${specifier}, which is no source file`);
      faults.push(...layerFaults(path, target));
      targets.push(target);
    }
    edges.set(path, targets);
    if (path.startsWith(core)) faults.push(...purityFaults(path, facts));
  }
  const cycle = findCycle(edges);
  if (cycle) faults.push(`cycle: ${cycle.join(' -> ')}`);
  return faults;
}

/** The library, and the part of it that a thread runs. */
const PUBLIC_ENTRIES: ReadonlySet<string> = new Set(['@valvetide/core', '@valvetide/core/job']);

function packageFaults(path: string, specifier: string): string[] {
  if (path.startsWith(core) && isBuiltin(specifier)) return [`${path}: the library imports ${specifier}`];
  if (path.startsWith(core) && specifier.startsWith('@valvetide/'))
    return [`${path}: the library imports ${specifier}`];
  if (path.startsWith(cli) && specifier.startsWith('@valvetide/') && !PUBLIC_ENTRIES.has(specifier))
    return [`${path}: imports ${specifier}, not the library's public entry`];
  return [];
}

function layerFaults(path: string, target: string): string[] {
  if (path.startsWith(cli))
    return target.startsWith(cli) ? [] : [`${path}: imports ${target} past the library's public entry`];
  if (!target.startsWith(core)) return [`${path}: imports ${target} outside the library`];
  if (target === `${core}index.ts`) return [`${path}: imports the contents page`];
  if (path === `${core}index.ts`) return [];
  const [from, to] = [roomOf(path), roomOf(target)];
  if (from < 0) return [`${path}: stands in no room of the house`];
  return to <= from ? [] : [`${path}: imports upward from ${ROOMS[from]} to ${ROOMS[to]} (${target})`];
}

function roomOf(path: string): number {
  return ROOMS.indexOf(path.slice(core.length).split('/')[0]);
}

function purityFaults(path: string, facts: ModuleFacts): string[] {
  const allowed = ALLOWED.get(path) ?? [];
  return [...facts.globals]
    .filter((name) => impure.has(name) && !allowed.includes(name))
    .map((name) => `${path}: uses ${name}`);
}

/** First import cycle met in a depth-first walk, its first file repeated at the end. */
function findCycle(edges: ReadonlyMap<string, readonly string[]>): string[] | undefined {
  const done = new Set<string>();
  const trail: string[] = [];
  const walk = (path: string): string[] | undefined => {
    const at = trail.indexOf(path);
    if (at >= 0) return [...trail.slice(at), path];
    if (done.has(path)) return undefined;
    trail.push(path);
    for (const target of edges.get(path) ?? []) {
      const cycle = walk(target);
      if (cycle) return cycle;
    }
    trail.pop();
    done.add(path);
    return undefined;
  };
  for (const path of edges.keys()) {
    const cycle = walk(path);
    if (cycle) return cycle;
  }
  return undefined;
}
