import { describe, expect, it } from 'vitest';
import { CORE, type Core } from '../../packages/cli/src/core.ts';
import { EXIT_MEANINGS } from '../../packages/cli/src/exitCodes.ts';
import { main } from '../../packages/cli/src/main.ts';
import { world } from '../../packages/cli/test/fakeIo.ts';
import { measuringCore } from '../../packages/cli/test/measuredRunner.ts';
import { byPrimary, inventedRunner } from '../../packages/cli/test/studies.ts';
import { blocks, commandLines, exampleFiles, guides, readGuide, split } from './guides.ts';

/** The real library, but one speed a forecast and invented curves in studies: the command lines are under test. */
const firstSpeed: Core = {
  ...measuringCore(CORE),
  openRunner: () => inventedRunner(byPrimary),
  forecast: (combination, options) =>
    CORE.forecast(combination, { ...options, rpm: options.rpm.slice(0, 1) }),
};

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

  it.each(guides())(
    '%s: each works, one after the other',
    async (path) => {
      let files = exampleFiles();
      for (const line of commandLines(readGuide(path))) {
        const { words, input } = split(line);
        const w = world({ files, columns: 100, ...(input === undefined ? {} : { stdin: files[input] }) });
        const code = await main(words, w.io, firstSpeed);
        expect(code, `${line}\n${w.err()}`).toBe(0);
        const written = [...w.files.keys()].filter((name) => !(name in files));
        expect(w.out().length + written.length, `${line} gave nothing`).toBeGreaterThan(0);
        files = Object.fromEntries(w.files);
      }
    },
    120_000,
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
