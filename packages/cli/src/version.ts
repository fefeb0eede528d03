/** The version in the package's own manifest, one folder above both `src` and `dist`. */
import { readFileSync } from 'node:fs';

export function version(): string {
  const manifest: unknown = JSON.parse(readFileSync(new URL('../package.json', import.meta.url), 'utf8'));
  if (typeof manifest === 'object' && manifest !== null && 'version' in manifest)
    return String(manifest.version);
  throw new Error('package.json has no version');
}
