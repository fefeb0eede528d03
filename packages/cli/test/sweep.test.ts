import { describe, expect, it } from 'vitest';
import type { Core } from '../src/core.ts';
import { EXIT } from '../src/exitCodes.ts';
import { parseVary } from '../src/input/parseVary.ts';
import { main } from '../src/main.ts';
import { world } from './fakeIo.ts';
import { studyCore } from './studies.ts';

const files = {
  'a.yaml': `
name: As bought
engine: { bore: 4.000 in, stroke: 3.480 in, cylinders: 8 }
chamber: { compression: 9.5 }
heads: { valvesPerCylinder: 2 }
exhaust: { style: headers, primary: { length: 33 in } }
`,
};

const SPEEDS = ['--rpm', '3000:6000:1000'];
const LENGTH = 'exhaust.primary.length=28:34:1 in';

describe('valvetide sweep', () => {
  it('leads with the best value, what it gains and how flat the top is', async () => {
    const w = world({ files });
    expect(await main(['sweep', 'a.yaml', '--vary', LENGTH, ...SPEEDS], w.io, studyCore())).toBe(EXIT.ok);
    const out = w.out().replaceAll('\n', ' ');
    // 18 N m more than at 33 in, at a mean speed of 4500 rpm.
    expect(out).toContain('Best over 3000 to 6000 rpm: exhaust.primary.length 30 in,');
    expect(out).toContain('+11.4 hp (+2.6 %) against the combination as it is');
    expect(out).toContain('As it is: exhaust.primary.length 33 in.');
    expect(out).toContain('Within 0.5 % of the best with exhaust.primary.length from 29 in to 31 in.');
    expect(out).toContain('30 in *');
  });

  it('draws the means along the values', async () => {
    const w = world({ files, columns: 80 });
    await main(['sweep', 'a.yaml', '--vary', LENGTH, ...SPEEDS], w.io, studyCore());
    const picture = w
      .out()
      .split('\n')
      .filter((line) => /^\s*\d* [|+] /.test(line));
    expect(picture.join('\n')).toContain('*');
    expect(w.out()).toContain('34 in\n');
  });

  it('of two fields shows the grid of gains, the best marked', async () => {
    const w = world({ files });
    const words = ['sweep', 'a.yaml', '--vary', LENGTH, '--vary', 'chamber.compression=9.5,10.5', ...SPEEDS];
    expect(await main(words, w.io, studyCore())).toBe(EXIT.ok);
    expect(w.out().replaceAll('\n', ' ')).toContain('chamber.compression across');
    expect(w.out()).toMatch(/^30 in +\+2\.6\d\* +\+2\.6\d$/m);
  });

  it('gives JSON and CSV with every point', async () => {
    const w = world({ files });
    await main(['sweep', 'a.yaml', '--vary', LENGTH, ...SPEEDS, '--json'], w.io, studyCore());
    expect(JSON.parse(w.out())).toMatchObject({
      schemaVersion: 1,
      complete: true,
      variables: [{ path: 'exhaust.primary.length', current: '33 in' }],
      best: { index: 2, values: ['30 in'] },
    });
    const c = world({ files });
    await main(['sweep', 'a.yaml', '--vary', LENGTH, ...SPEEDS, '--csv'], c.io, studyCore());
    expect(c.out().split('\r\n')).toHaveLength(9);
    expect(c.out()).toMatch(/^combination,exhaust\.primary\.length \[in\],bandTorqueNm/);
  });

  it('after Ctrl-C shows the points that are done', async () => {
    const w = world({ files });
    const words = ['sweep', 'a.yaml', '--vary', LENGTH, ...SPEEDS];
    expect(await main(words, w.io, studyCore(undefined, 3))).toBe(EXIT.interrupted);
    expect(w.out()).toContain('Interrupted: 2 of 7 points were forecast.');
    expect(w.err()).toContain('interrupted: 3 of 8 forecasts done');
  });

  it('says where more may lie beyond, and what no engine can have', async () => {
    const w = world({ files });
    const words = ['sweep', 'a.yaml', '--vary', 'exhaust.primary.length=26:28:1 in', ...SPEEDS];
    await main(words, w.io, studyCore());
    expect(w.out().replaceAll('\n', ' ')).toContain(
      'The best exhaust.primary.length is the first or last that was tried: more may lie beyond.',
    );
    expect(w.out()).not.toContain('A sharp top');
    const alone = world({ files });
    await main(
      ['sweep', 'a.yaml', '--vary', 'exhaust.primary.length=26in', ...SPEEDS],
      alone.io,
      studyCore(),
    );
    expect(alone.out()).toContain('Best');
    expect(alone.out()).not.toContain('A sharp top');
    const v = world({ files });
    await main(
      ['sweep', 'a.yaml', '--vary', 'heads.intake.valve=1.9 in,2.0 in,3.0 in', ...SPEEDS],
      v.io,
      studyCore(),
    );
    expect(v.out().replaceAll('\n', ' ')).toContain('refused: heads.intake.valve 3.0 in: heads.intake.valve');
  });
});

describe('what is doubtful at several values', () => {
  it('is said once, with the values', async () => {
    const core = studyCore();
    const doubtful: Core = {
      ...core,
      sweep: async (...given) => {
        const result = await core.sweep(...given);
        if (!result.ok) return result;
        const points = result.value.points.map((point, i) => ({
          ...point,
          cautions: i === 0 ? ['runs lean'] : ['takes care'],
        }));
        return { ok: true, value: { ...result.value, points } };
      },
    };
    const w = world({ files });
    const words = ['sweep', 'a.yaml', '--vary', 'exhaust.primary.length=29:31:1 in', ...SPEEDS];
    expect(await main(words, w.io, doubtful), w.err()).toBe(EXIT.ok);
    expect(
      w
        .out()
        .split('\n')
        .filter((line) => line.startsWith('warning: at')),
    ).toEqual(['warning: at 29 in: runs lean', 'warning: at 30 in; 31 in: takes care']);
  });
});

describe('valvetide sweep refuses', () => {
  const refused = async (...words: readonly string[]): Promise<string> => {
    const w = world({ files });
    const code = await main(['sweep', 'a.yaml', ...SPEEDS, ...words], w.io, studyCore());
    return `${code} ${w.err().split('\n')[0]}`;
  };

  it('none, three or the same field twice', async () => {
    expect(await refused()).toBe('2 sweep needs --vary, once or twice');
    expect(await refused('--vary', 'a=1', '--vary', 'b=1', '--vary', 'c=1')).toContain('once or twice');
    expect(await refused('--vary', LENGTH, '--vary', LENGTH)).toContain('the same field twice');
    expect(await refused('--vary', 'a=1:30:1', '--vary', 'b=1:30:1')).toContain(
      '900 points, and 400 at most',
    );
  });

  it('a path that no combination has, with the nearest, and a value without its unit', async () => {
    expect(await refused('--vary', 'exhaust.primry.length=28:30:1 in')).toContain(
      "3 sweep to 'exhaust.primry.length 28 in' exhaust.primry.length is not a field of a combination (did you mean exhaust.primary.length?)",
    );
    expect(await refused('--vary', 'exhaust.primary.length=28:30:1')).toContain('28 alone could be anything');
  });
});

describe('--vary', () => {
  it.each([
    ['a.b=850:1050:100 cfm', ['850 cfm', '950 cfm', '1050 cfm']],
    ['a.b=850cfm:1050cfm:100cfm', ['850 cfm', '950 cfm', '1050 cfm']],
    ['a.b=-2:2:2deg', ['-2 deg', '0 deg', '2 deg']],
    ['a.b=1.5:1.8:0.1', [1.5, 1.6, 1.7, 1.8]],
    ['a.b=1:2:0.3', [1, 1.3, 1.6, 1.9]],
    ['a.b = 1.5, 1.6, 1.7', [1.5, 1.6, 1.7]],
    ['a.b=1.750,1.875 in', ['1.750 in', '1.875 in']],
    ['a.b=105,109.50deg', ['105 deg', '109.50 deg']],
    ['a.b=1-3/4 in,1-7/8 in', ['1-3/4 in', '1-7/8 in']],
    ['a.b=single-plane,dual-plane', ['single-plane', 'dual-plane']],
    ['a.b=5 %', ['5 %']],
  ])('%s', (text, values) => expect(parseVary(text)).toEqual({ path: 'a.b', values }));

  it.each([
    ['a.b', 'write path=from:to:step'],
    ['=1:2:3', 'write path=from:to:step'],
    ['a.b=1:2', 'write path=from:to:step'],
    ['a.b=2:1:1', 'must end above its start'],
    ['a.b=1:2:0', 'the step must be above 0'],
    ['a.b=1in:2mm:1in', 'one unit, not in and mm'],
    ['a.b=1:1000:1', 'more than 100 values'],
    ['a.b=1,,2', 'a value is missing'],
  ])('%s is refused', (text, why) => expect(() => parseVary(text)).toThrow(why));
});
