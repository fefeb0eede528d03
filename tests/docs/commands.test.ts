/** Command lines of the guides as text; that each works is shown by `output.test.ts`, which runs them. */
import { describe, expect, it } from 'vitest';
import { EXIT_MEANINGS } from '../../packages/cli/src/exitCodes.ts';
import { blocks, commandLines, exampleFiles, guides, readGuide } from './guides.ts';

describe('the command lines of the guides', () => {
  it('are there', () => {
    expect(commandLines(readGuide('README.md')).length).toBeGreaterThan(5);
  });

  it.each(guides())(
    '%s: stand as they can be typed after npm ci and npm start, in no other folder',
    (path) => {
      const typed = blocks(readGuide(path), 'sh').flatMap((body) => body.split('\n'));
      expect(
        typed.filter((line) => /(^|\s)valvetide\b/.test(line) && !line.startsWith('npx valvetide ')),
      ).toEqual([]);
    },
  );

  it('that the README puts into npm start works', () => {
    const manifest = JSON.parse(readGuide('package.json'));
    expect(manifest.scripts.start).toContain('valvetide forecast examples/hill-climb/engine.yaml');
    expect(exampleFiles()).toHaveProperty(['examples/hill-climb/engine.yaml']);
  });
});

describe('installing for every folder', () => {
  it('names the file that the version of the manifest makes', () => {
    const { name, version } = JSON.parse(readGuide('packages/cli/package.json'));
    const file = `${name.replace('@', '').replace('/', '-')}-${version}.tgz`;
    expect(readGuide('docs/guide/first-engine.md')).toContain(`npm install --global ./${file}`);
  });
});

describe('the page of exit codes', () => {
  it('lists those the program has', () => {
    const rows = [...readGuide('docs/guide/exit-codes.md').matchAll(/^\| (\d+) +\| (.*?) +\|/gm)];
    expect(rows.map(([, code, meaning]) => [Number(code), meaning])).toEqual(EXIT_MEANINGS);
  });
});
