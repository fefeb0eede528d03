import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

interface Manifest {
  readonly name: string;
  readonly version: string;
  readonly workspaces?: readonly string[];
  readonly engines?: { readonly node?: string };
  readonly scripts?: Readonly<Record<string, string>>;
  readonly dependencies?: Readonly<Record<string, string>>;
  readonly devDependencies?: Readonly<Record<string, string>>;
}

function read(folder: string): Manifest {
  return JSON.parse(readFileSync(join(import.meta.dirname, '../..', folder, 'package.json'), 'utf8'));
}

function readAll(): Manifest[] {
  const root = read('.');
  return [root, ...(root.workspaces ?? []).map(read)];
}

describe('the manifests', () => {
  it('carry one version', () => {
    expect(new Set(readAll().map((m) => m.version))).toEqual(new Set([read('.').version]));
  });

  it('ask for the same Node', () => {
    expect(new Set(readAll().map((m) => m.engines?.node))).toEqual(new Set(['>=20.19']));
  });

  it('build the command with the library of the same version, which an installation then need not bring', () => {
    const { dependencies, devDependencies } = read('packages/cli');
    expect(devDependencies?.['@valvetide/core']).toBe(read('packages/core').version);
    expect(Object.keys(dependencies ?? {})).toEqual(['tinypool', 'vega']);
  });

  it('pin every tool and every dependency exactly', () => {
    for (const manifest of readAll())
      for (const [name, range] of Object.entries({ ...manifest.devDependencies, ...manifest.dependencies }))
        expect(range, `${name} in ${manifest.name}`).toMatch(/^\d+\.\d+\.\d+$/);
  });

  it('run nothing when installed', () => {
    for (const manifest of readAll())
      for (const name of ['preinstall', 'install', 'postinstall', 'prepare'])
        expect(manifest.scripts?.[name], `${name} in ${manifest.name}`).toBeUndefined();
  });

  it('of what is published say where it lives, where to complain, what it is about, and how it is published', () => {
    for (const folder of ['packages/core', 'packages/cli']) {
      expect(read(folder), folder).toMatchObject({
        license: 'MIT',
        repository: { type: 'git', directory: folder },
        bugs: expect.any(String),
        keywords: expect.arrayContaining(['engine']),
        publishConfig: { access: 'public', provenance: true },
      });
    }
  });
});
