/** The tarballs as they would be published, unpacked and looked at. */
import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const root = join(import.meta.dirname, '../..');
let folder = '';

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'valvetide-tarballs-'));
  for (const name of ['core', 'cli']) {
    mkdirSync(join(folder, name));
    const words = ['pack', '--silent', '--pack-destination', join(folder, name), '-w', `packages/${name}`];
    execFileSync('npm', words, { cwd: root });
    const [tarball] = readdirSync(join(folder, name));
    execFileSync('tar', ['-xzf', tarball], { cwd: join(folder, name) });
  }
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe.each(['core', 'cli'])('the tarball of %s', (name) => {
  const at = (file: string): string => join(folder, name, 'package', file);
  const text = (file: string): string => readFileSync(at(file), 'utf8');
  const manifest = (): Readonly<Record<string, unknown>> => JSON.parse(text('package.json'));

  it('carries the licence, a README that names it, and the list of changes of its version', () => {
    expect(text('LICENSE')).toBe(readFileSync(join(root, 'LICENSE'), 'utf8'));
    expect(text('README.md')).toContain(`# @valvetide/${name}`);
    expect(text('CHANGELOG.md')).toContain(`## ${String(manifest()['version'])}`);
  });

  it('says where it lives and runs nothing when installed', () => {
    expect(manifest()).toMatchObject({
      repository: { type: 'git' },
      bugs: expect.any(String),
      keywords: expect.any(Array),
    });
    const scripts = Object.keys((manifest()['scripts'] ?? {}) as object);
    for (const hook of ['preinstall', 'install', 'postinstall', 'prepare'])
      expect(scripts).not.toContain(hook);
  });

  it('holds no tests, no sources of tests and no file that only a build needs', () => {
    const walk = (path: string): string[] =>
      readdirSync(path).flatMap((entry) => {
        const inner = join(path, entry);
        return statSync(inner).isDirectory() ? walk(inner) : [inner];
      });
    const files = walk(at('.'));
    expect(files.length).toBeGreaterThan(5);
    expect(
      files.filter((file) => /\.test\.|\.tsbuildinfo$|\/test\/|\/etc\/|node_modules/u.test(file)),
    ).toEqual([]);
  });

  it('holds every file its manifest leads to', () => {
    const { exports, bin } = manifest() as { exports: unknown; bin?: Readonly<Record<string, string>> };
    const named = [...JSON.stringify(exports).matchAll(/"(\.\/dist\/[^"*]+)"/gu)].map(([, file]) => file);
    for (const file of [...named, ...Object.values(bin ?? {})]) expect(existsSync(at(file)), file).toBe(true);
  });
});
