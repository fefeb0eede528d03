/** What an installation brings: pinned, checked, licensed, and without anything that runs. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

interface Locked {
  readonly version?: string;
  readonly resolved?: string;
  readonly integrity?: string;
  readonly license?: string;
  readonly link?: boolean;
  readonly dev?: boolean;
  readonly optional?: boolean;
  readonly hasInstallScript?: boolean;
  readonly engines?: { readonly node?: string };
}

const read = (name: string): unknown =>
  JSON.parse(readFileSync(join(import.meta.dirname, '../..', name), 'utf8'));
const { packages } = read('package-lock.json') as { packages: Readonly<Record<string, Locked>> };
const { allowed } = read('tools/licences.json') as { allowed: readonly string[] };

/** Parts of others, by where they stand. */
const others = Object.entries(packages).filter(
  ([path, { link }]) => path.includes('node_modules/') && link !== true,
);
const shipped = others.filter(([, { dev }]) => dev !== true);

describe('the lockfile', () => {
  it('has a checksum for every part and an address for none', () => {
    expect(others.length).toBeGreaterThan(100);
    for (const [path, { integrity, resolved, version }] of others) {
      expect(integrity, path).toMatch(/^sha512-/u);
      expect(resolved, path).toBeUndefined();
      expect(version, path).toMatch(/^\d+\.\d+\.\d+/u);
    }
  });

  it('brings nothing that runs at installation', () => {
    expect(
      others.filter(([, { hasInstallScript }]) => hasInstallScript === true).map(([path]) => path),
    ).toEqual([]);
  });
});

describe('what ships', () => {
  it('has a licence that is allowed', () => {
    for (const [path, { license }] of shipped) expect(allowed, path).toContain(license);
  });

  it('runs on every Node that the manifests promise, the first of 22 too', () => {
    for (const [path, { engines }] of shipped) {
      const range = engines?.node ?? '*';
      expect(range, path).not.toMatch(/\^22\.[1-9]|>=\s*22\.[1-9]|>=\s*2[3-9]/u);
    }
  });

  it('is no more than it was: count again before a dependency is added', () => {
    expect(shipped.length).toBeLessThanOrEqual(SHIPPED);
  });
});

/** Parts of others that an installation of both packages brings. */
const SHIPPED = 81;
