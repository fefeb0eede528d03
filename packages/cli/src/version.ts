/** What the package's own manifest says, one folder above `src`, `dist` and `bundle`. */
import { readFileSync } from 'node:fs';

export function version(): string {
  return manifestText('version');
}

/** Where faults of the program are reported. */
export function faultAddress(): string {
  return manifestText('bugs');
}

function manifestText(name: string): string {
  const manifest: unknown = JSON.parse(readFileSync(new URL('../package.json', import.meta.url), 'utf8'));
  const value = typeof manifest === 'object' && manifest !== null ? Reflect.get(manifest, name) : undefined;
  if (typeof value === 'string') return value;
  throw new Error(`package.json has no ${name}`);
}
