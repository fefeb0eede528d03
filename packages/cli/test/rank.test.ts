import { describe, expect, it } from 'vitest';
import { INCH } from '../../core/src/base/constants.ts';
import { EXIT } from '../src/exitCodes.ts';
import { main } from '../src/main.ts';
import { type World, world } from './fakeIo.ts';
import { BAND, SHOP_MULE, torqueByPrimary } from './primaryWorld.ts';
import { studyCore, type Torque } from './studies.ts';

const changes = `
changes:
  - { name: Longer, scale: { exhaust.primary.length: 1.1 }, cost: 600, hours: 4, insteadOf: headers }
  - { name: Shorter, scale: { exhaust.primary.length: 0.9 }, cost: 500, hours: 4, insteadOf: headers }
  - { name: Milled, add: { chamber.compression: 0.5 }, cost: 300, hours: 12, reversible: false }
`;

const files = { 'engine.yaml': SHOP_MULE, 'changes.yaml': changes };

const rank = async (w: World, ...words: readonly string[]): Promise<number> =>
  main(['rank', 'engine.yaml', '--changes', 'changes.yaml', ...words], w.io, studyCore(torqueByPrimary));

describe('valvetide rank', () => {
  it('leads with what to test first, what to expect of it and what the dyno can tell', async () => {
    const w = world({ files });
    expect(await rank(w, ...BAND, '-q')).toBe(EXIT.ok);
    // 6.8 of 400 N m are 1.7 %; 400 N m at 4500 rpm, the middle of the band, are 252.8 hp.
    expect(w.out().replaceAll('\n', ' ')).toMatch(
      /^First test Shorter: \+4\.3 \+\/- \d\.\d hp \(.*\) over 3000 to 6000 rpm; 3 pulls a side show 2\.1 hp or more $/,
    );
  });

  it('shows the table, the best set and the order of tests', async () => {
    const w = world({ files, columns: 120 });
    expect(await rank(w, ...BAND, '--budget', '700')).toBe(EXIT.ok);
    const out = w.out();
    expect(out).toMatch(/^Shorter +1 +\+4\.3 +\+1\.7 +0\.\d /m);
    expect(out).toMatch(/^Longer +\d +-4\.3 +-1\.7 +0\.\d /m);
    expect(out).toContain('Best set: +4.3 hp (+1.7 %) (cost 500, 4 hours): Shorter.');
    expect(out).toMatch(/^ 1\. Baseline, 3 pulls: the engine as it stands\.$/m);
    expect(out).toMatch(/Leave\n- Longer, -1\.7 %: Shorter in its place is better\./);
    // Baseline, test, baseline, test, baseline: five times three pulls at ten minutes, beside 4 and 12 hours.
    expect(out).toContain('In all 15 pulls, 16.0 hours to fit and 2.5 to pull, 800 to buy.');
  });

  it('says what most of an uncertainty comes from, where one estimate makes much of it', async () => {
    const w = world({ files, columns: 120 });
    // What an inch is worth hangs on how warm the tubes are.
    const byWarmth: Torque = (combination) => {
      const { length, wallTemperature } = combination.exhaustSystem.primary;
      return 400 - 2 * (length / INCH - 20) * (wallTemperature / 800) ** 8;
    };
    expect(
      await main(['rank', 'engine.yaml', '--changes', 'changes.yaml', ...BAND], w.io, studyCore(byWarmth)),
    ).toBe(EXIT.ok);
    expect(w.out()).toMatch(
      /What most of each uncertainty comes from\n(.*\n)*- Longer: exhaust\.primary\.wallTemperature, \d+ % of its variance, [+-]\d\.\d\d % of gain a standard\s+deviation; the model.s own\s+error, \d+ %/,
    );
  });

  it('gives JSON with these keys', async () => {
    const w = world({ files });
    expect(await rank(w, ...BAND, '--seed', '7', '--json')).toBe(EXIT.ok);
    const result = JSON.parse(w.out());
    expect(result).toMatchObject({
      schemaVersion: 1,
      seed: 7,
      complete: true,
      band: { fromRpm: 3000, toRpm: 6000 },
    });
    const keys =
      'name bandGainPct bandGainKw sigmaPct chanceOfGain chanceResolvable peakPowerGainPct peakTorqueGainPct worstLossPct worstLossRpm tieGroup cautions';
    expect(Object.keys(result.changes[0])).toEqual(expect.arrayContaining(keys.split(' ')));
    expect(result.changes.map(({ name }: { name: string }) => name)).toEqual(['Shorter', 'Milled', 'Longer']);
    expect(Object.keys(result.pairs[0])).toEqual([
      'a',
      'b',
      'togetherPct',
      'interactionPct',
      'verdict',
      'breaches',
    ]);
    expect(result.pairs).toHaveLength(2);
    for (const key of ['program', 'order', 'assumed', 'warnings']) expect(result).toHaveProperty(key);
  });

  it('never sends to test, or into the best set, what the fuel forbids, and says what it breaks', async () => {
    const dear = `${changes}  - { name: Domed, add: { chamber.compression: 3 }, cost: 900, hours: 12, reversible: false }\n`;
    const w = world({ files: { ...files, 'changes.yaml': dear }, columns: 120 });
    expect(await rank(w, ...BAND)).toBe(EXIT.ok);
    const out = w.out().replaceAll('\n', ' ');
    // Three points of compression gain 30 of 400 N m, far more than anything else, and ask for 98 octane.
    expect(out).toMatch(
      /^First test Shorter:[^;]*; [^;]*\. Domed gains more, \+19\.0 [^,]*, but breaks a limit: best timing/,
    );
    expect(out).toMatch(/Domed ! +\d +\+19\.\d +\+7\.5 /);
    expect(out).toMatch(/Best set: [^:]*: (Shorter, Milled|Milled, Shorter)\./);
    expect(out).toMatch(
      /All that go together: [^:]*: Domed, [^.]*\. Breaks a limit: best timing at \d+ rpm asks for/,
    );
    expect(out).toMatch(/- Domed, \+7\.5 %: best timing at \d+ rpm asks for 98 octane/);
    expect(out).toMatch(/warning: Domed breaks a limit: best timing at \d+ rpm asks for 98 octane/);
    const sheet = world({ files: { ...files, 'changes.yaml': dear } });
    await rank(sheet, ...BAND, '--csv');
    expect(sheet.out()).toMatch(/^[^,]*,Domed,.*best timing at \d+ rpm asks for 98 octane/m);
  });

  it('gives CSV with a line for each change', async () => {
    const w = world({ files });
    await rank(w, ...BAND, '--csv');
    const lines = w.out().trimEnd().split('\r\n');
    expect(lines).toHaveLength(4);
    expect(lines[0]).toMatch(/^combination,change,bandGainPct,bandGainKw,sigmaPct,/);
    expect(lines[1]).toMatch(/^[^,]*,Shorter,1\.7/);
  });

  it('asks less of a dyno that repeats well', async () => {
    const w = world({ files });
    await rank(w, ...BAND, '--dyno', '0.3 %', '--pulls', '5', '--json');
    // 2 sigma sqrt(2 / n).
    expect(JSON.parse(w.out()).dyno.resolvablePct).toBeCloseTo(2 * 0.3 * Math.sqrt(2 / 5), 9);
  });

  it.each([
    [['--dyno', '0'], '--dyno 0: write one standard deviation in percent, such as 0.5'],
    [['--pulls', '2.5'], '--pulls 2.5: write a whole number from 1 to 100'],
    [['--budget', 'lots'], '--budget lots: write a plain number, such as 2500'],
    [['--seed', '-1'], '--seed -1: write a whole number from 0 to 4294967295'],
  ])('refuses %s', async (words, line) => {
    const w = world({ files });
    expect(await rank(w, ...BAND, ...words)).toBe(EXIT.usage);
    expect(w.err()).toContain(line);
  });

  it('needs changes', async () => {
    const w = world({ files });
    expect(await main(['rank', 'engine.yaml'], w.io, studyCore())).toBe(EXIT.usage);
    expect(w.err()).toBe('rank needs --changes FILE\nsee valvetide rank --help\n');
  });

  it('after Ctrl-C shows what there is and says that it was interrupted', async () => {
    const w = world({ files });
    const words = ['rank', 'engine.yaml', '--changes', 'changes.yaml', ...BAND];
    expect(await main(words, w.io, studyCore(torqueByPrimary, 3))).toBe(EXIT.interrupted);
    expect(w.out()).toContain('Interrupted: what was not run is missing');
    expect(w.err()).toMatch(/interrupted: \d+ of \d+ forecasts done/);
    const early = world({ files });
    expect(await main(words, early.io, studyCore(torqueByPrimary, 0))).toBe(EXIT.interrupted);
    expect([early.out(), early.err()]).toEqual(['', 'interrupted, nothing written\n']);
  });
});
