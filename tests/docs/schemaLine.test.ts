/** The line by which an editor finds the schema of a combination file. */
import { readdirSync } from 'node:fs';
import { join, posix } from 'node:path';
import { describe, expect, it } from 'vitest';
import { starterFile } from '../../packages/cli/src/starterFile.ts';
import { exists, readGuide, root } from './guides.ts';

/** Where the first line of a file sends an editor, as written. */
function schemaOf(text: string): string {
  return /^# yaml-language-server: \$schema=(\S+)\n/.exec(text)?.[1] ?? 'no line';
}

describe('the schema line', () => {
  const examples = readdirSync(join(root, 'examples'), { recursive: true, encoding: 'utf8' })
    .map((name) => `examples/${name.replaceAll('\\', '/')}`)
    .filter((path) => path.endsWith('engine.yaml'));

  it.each(examples)('of %s leads to the published schema', (path) => {
    const target = posix.join(posix.dirname(path), schemaOf(readGuide(path)));
    expect(exists(target), target).toBe(true);
    expect(JSON.parse(readGuide(target)).title).toBe('Combination');
  });

  it('of the starter file names a file that the installed package gives to everyone', () => {
    const [, inPackage] = schemaOf(starterFile('x')).split('./node_modules/@valvetide/core/');
    expect(exists(`packages/core/${inPackage}`)).toBe(true);
    const { files, exports } = JSON.parse(readGuide('packages/core/package.json'));
    expect(files).toContain(posix.dirname(inPackage));
    expect(exports).toHaveProperty([`./${posix.dirname(inPackage)}/*.json`]);
  });
});
