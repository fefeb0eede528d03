import type { ChoiceResult } from '@valvetide/core';
import { describe, expect, it } from 'vitest';
import type { Core } from '../src/core.ts';
import { EXIT } from '../src/exitCodes.ts';
import { main } from '../src/main.ts';
import { buildColumns, chosenAnswer, type NumberedBuild } from '../src/render/chosenText.ts';
import { type World, world } from './fakeIo.ts';
import { BAND, SHOP_MULE, torqueByPrimary } from './primaryWorld.ts';
import { studyCore } from './studies.ts';

const shelf = `
groups:
  - name: Pistons
    choices:
      - { name: Milled, add: { chamber.compression: 0.5 }, cost: 300, hours: 12 }
      - { name: Domed, add: { chamber.compression: 1.5 }, cost: 900, hours: 20 }
ranges:
  - { name: Primary, field: exhaust.primary.length, from: 30 in, to: 34 in, step: 2 in, cost: 500, hours: 4 }
`;

const files = { 'engine.yaml': SHOP_MULE, 'shelf.yaml': shelf };

type Chosen = ReturnType<Core['choose']>;

/** What was chosen, by what was asked: a shelf is searched once for all the forms its result is shown in. */
const known = new Map<string, Chosen>();

function searchedOnce(core: Core): Core {
  return {
    ...core,
    choose: (baseline, asked, options) => {
      // Functions have no place in JSON, so that runner and progress make no other question.
      const key = JSON.stringify([asked, options]);
      const found = known.get(key) ?? core.choose(baseline, asked, options);
      known.set(key, found);
      return found;
    },
  };
}

const choose = async (w: World, ...words: readonly string[]): Promise<number> =>
  main(
    ['choose', 'engine.yaml', '--shelf', 'shelf.yaml', ...words],
    w.io,
    searchedOnce(studyCore(torqueByPrimary)),
  );

describe('valvetide choose', () => {
  it('leads with the best build, what to expect of it and what it costs', async () => {
    const w = world({ files });
    expect(await choose(w, ...BAND, '-q')).toBe(EXIT.ok);
    // 8 + 15 of 400 N m are 5.75 %, and of the 252.8 hp at 4500 rpm, the middle of the band, 14.5 hp.
    expect(w.out().replaceAll('\n', ' ')).toMatch(
      /^Best of 9 builds: Domed \+ Primary 30 in: \+5\.8 \+\/- \d\.\d % \(\+14\.5 hp mean power\), cost 1400, 24 hours/,
    );
  });

  it('shows the best, what money buys, what matters and what was not looked at', async () => {
    const w = world({ files, columns: 120 });
    expect(await choose(w, ...BAND)).toBe(EXIT.ok);
    const out = w.out();
    expect(out).toMatch(/^1 +1 +\+5\.75/m);
    expect(out).toContain('1  Domed + Primary 30 in');
    expect(out).toMatch(/^What money buys/m);
    expect(out).toMatch(/^ *300 +\+1\.25 % +Milled$/m);
    expect(out).toMatch(/^Pistons: as it is -1\.7, Milled -0\.4, Domed \+2\.1$/m);
    expect(out).toContain('The shelf makes 9 builds, 9 within the limits; all of them were forecast.');
  });

  it('names the parts that no build within the budget has', async () => {
    const w = world({ files, columns: 120 });
    expect(await choose(w, ...BAND, '--budget', '600')).toBe(EXIT.ok);
    expect(w.out()).toContain('No build within the limits has Domed.');
    const free = world({ files, columns: 120 });
    await choose(free, ...BAND);
    expect(free.out()).not.toContain('No build within');
  });

  it('says where the engine as it is may be as good, and where nothing gains', async () => {
    const w = world({ files });
    await choose(w, ...BAND, '--json');
    const { builds, search }: Pick<ChoiceResult, 'builds' | 'search'> = JSON.parse(w.out());
    const [first] = builds;
    const ranked = (...tieGroups: readonly (readonly [choice: string | null, tieGroup: number])[]): string =>
      chosenAnswer(
        {
          complete: true,
          search,
          builds: tieGroups.map(([choice, tieGroup]) => ({
            ...first,
            hours: 1,
            choices: [{ group: 'Pistons', choice }],
            tieGroup,
          })),
        },
        'trade',
      );
    expect(ranked(['Domed', 1], ['Milled', 2], [null, 3])).toMatch(/^Best of 9 builds: Domed: .*, 1 hour$/);
    expect(ranked(['Domed', 1], ['Milled', 1], [null, 2])).toMatch(/, 1 hour; the next may be as good$/);
    expect(ranked(['Domed', 1], ['Milled', 1], [null, 1])).toMatch(
      /; the engine as it is may be as good, so that nothing here is sure to gain$/,
    );
    expect(ranked([null, 1], ['Milled', 1])).toBe(
      'Best of 9 builds: the engine as it is. Nothing on this shelf gains',
    );
  });

  it('asks no certainty of the engine as it is, which has nothing to gain', () => {
    const cells = (choice: string | null): readonly string[] => {
      const build = { choices: [{ group: 'Pistons', choice }], sigmaPct: null, chanceOfGain: null };
      return buildColumns('trade')
        .filter(({ name }) => name === '+/-' || name === 'gains')
        .map(({ cell }) => cell({ ...(build as unknown as NumberedBuild), place: 1 }));
    };
    expect(cells(null)).toEqual(['', '']);
    expect(cells('Domed')).toEqual(['?', '?']);
  });

  it('shows piston speed as the trade does, and in SI', async () => {
    const heading = async (...words: readonly string[]): Promise<string> => {
      const w = world({ files, columns: 120 });
      await choose(w, ...BAND, ...words);
      return w.out();
    };
    // 2 x 3.48 in x 5000 rpm.
    expect(await heading()).toMatch(/^ .*ft\/min$/m);
    expect(await heading('--units', 'si')).toMatch(/^ .* m\/s$/m);
  });

  it('keeps a budget that the command names', async () => {
    const w = world({ files });
    await choose(w, ...BAND, '--budget', '800', '--json');
    const result = JSON.parse(w.out());
    expect(result).toMatchObject({ schemaVersion: 1, limits: { cost: 800 }, search: { withinLimits: 6 } });
    expect(result.builds[0].choices.map(({ choice }: { choice: string | null }) => choice)).toEqual([
      'Milled',
      'Primary 30 in',
    ]);
  });

  it('gives CSV with a line a build, a column a group', async () => {
    const w = world({ files });
    await choose(w, ...BAND, '--csv', '--wanted', '2');
    const lines = w.out().trimEnd().split('\r\n');
    expect(lines[0]).toMatch(/^combination,list,place,gainPct,.*,warnings,Pistons,Primary$/);
    expect(lines[1]).toMatch(/^[^,]*,best,1,5\.7.*,Domed,Primary 30 in$/);
    expect(lines.filter((line) => line.split(',')[1] === 'best')).toHaveLength(2);
  });

  it('draws a page and each of its charts', async () => {
    for (const chart of ['builds', 'money', 'choices']) {
      const w = world({ files });
      const words = ['--report', 'page.html', '--svg', 'chart.svg', '--chart', chart];
      expect(await choose(w, ...BAND, '-q', ...words)).toBe(EXIT.ok);
      expect(w.files.get('page.html')).toContain('What money buys');
      expect(w.files.get('chart.svg')).toContain('<svg');
    }
  });

  it('takes bands from the aims of the shelf, and refuses another beside them', async () => {
    const aims = `${shelf}\naims: [{ from: 3000 rpm, to: 4000 rpm, of: torque, weight: 2 }, { from: 5000 rpm, to: 6000 rpm }]`;
    const w = world({ files: { ...files, 'shelf.yaml': aims }, columns: 200 });
    expect(await choose(w, '--wanted', '1')).toBe(EXIT.ok);
    expect(w.out()).toContain(
      'mean torque over 3000 to 4000 rpm, weight 2; mean power over 5000 to 6000 rpm, weight 1.',
    );
    expect(await choose(w, ...BAND)).toBe(EXIT.usage);
    expect(w.err()).toContain('--band: leave it out, since the shelf names aims with bands of their own');
  });

  it('needs a shelf, and tells what is wrong with one', async () => {
    const w = world({ files: { ...files, 'shelf.yaml': 'ranges: [{ name: P }]' } });
    expect(await main(['choose', 'engine.yaml'], w.io, studyCore())).toBe(EXIT.usage);
    expect(await choose(w, ...BAND)).toBe(EXIT.input);
    expect(w.err()).toContain('shelf.yaml:1');
  });

  it('after Ctrl-C shows the best of what there is', async () => {
    const w = world({ files });
    const words = ['choose', 'engine.yaml', '--shelf', 'shelf.yaml', ...BAND];
    expect(await main(words, w.io, studyCore(torqueByPrimary, 6))).toBe(EXIT.interrupted);
    expect(w.out()).toContain('Interrupted: the best of what was forecast until then.');
  });
});
