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

  it('of the starter file is the one it is given', () => {
    expect(schemaOf(starterFile('x', '../schema/combination.schema.json'))).toBe(
      '../schema/combination.schema.json',
    );
  });

  it('can lead to the command, which brings the schema', () => {
    expect(JSON.parse(readGuide('packages/cli/package.json')).files).toContain('schema');
  });
});
