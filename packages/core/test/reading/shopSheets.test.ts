/** Flow sheets as shops have them: titles, rows of units, words of the trade in the headers. */
import { describe, expect, it } from 'vitest';
import { INCH_OF_WATER } from '../../src/base/constants.ts';
import { problemLine } from '../../src/combination/problem.ts';
import { readCombination } from '../../src/reading/readCombination.ts';
import { readFlowSheet } from '../../src/reading/sheet/flowSheet.ts';
import { fileWith } from './files.ts';

/** 1 ft3/min in m3/s. */
const CFM = 0.3048 ** 3 / 60;

function read(text: string) {
  const result = readFlowSheet(text, 'flow.csv');
  if (!result.ok) throw new Error(result.problems.map(problemLine).join('\n'));
  return result.value;
}

function refusal(text: string): string {
  const result = readFlowSheet(text, 'flow.csv');
  return result.ok ? 'was read' : result.problems.map(problemLine).join('\n');
}

describe('a flow sheet of a shop', () => {
  it('may have lines of title above its header', () => {
    const sheet = read('Port work, left head\nDate: 3 May\n\nlift in,intake cfm\n0.1,60\n0.3,170\n');
    expect(sheet.intake?.flow[1]).toBeCloseTo(170 * CFM, 12);
  });

  it('may have its units in a row of their own, in brackets or not', () => {
    const sheet = read('Lift,Intake,Exhaust\n(in),[cfm],cfm\n0.1,60,50\n0.3,170,130\n');
    expect(sheet.intake?.lift[1]).toBeCloseTo(0.3 * 0.0254, 12);
    expect(sheet.exhaust?.flow[1]).toBeCloseTo(130 * CFM, 12);
  });

  it('may say behind the unit how a column was measured', () => {
    const sheet = read(
      'valve lift (in),intake cfm w/o manifold,intake cfm w/manifold,exhaust cfm w/pipe\n0.1,60,58,50\n0.3,170,160,130\n',
    );
    expect(sheet.intake?.flow[1]).toBeCloseTo(170 * CFM, 12);
    expect(sheet.withManifold?.flow[1]).toBeCloseTo(160 * CFM, 12);
    expect(sheet.exhaust?.flow[1]).toBeCloseTo(130 * CFM, 12);
    expect(sheet.ignored).toEqual([]);
  });

  it.each([
    ['bars', '|'],
    ['spaces, as copied from a page', '   '],
  ])('may have its cells separated by %s', (_what, part) => {
    const rows = [
      ['Lift in', 'Intake cfm', 'Exhaust cfm'],
      ['0.1', '60', '50'],
      ['0.3', '170', '130'],
    ];
    const sheet = read(rows.map((row) => row.join(part)).join('\n'));
    expect(sheet.intake?.flow[1]).toBeCloseTo(170 * CFM, 12);
    expect(sheet.exhaust?.lift[0]).toBeCloseTo(0.1 * 0.0254, 12);
  });

  it('may be one that a spreadsheet wrote: its mark in front, decimal commas, empty rows of semicolons, litres a minute', () => {
    const sheet = read(
      '\uFEFFHead, rev C;;\r\nLift (mm);Intake (l/min);Exhaust (l/min)\r\n1;720,5;510\r\n;;\r\n8;3950;2600,5\r\n;;\r\n',
    );
    expect(sheet.intake?.flow[0]).toBeCloseTo(0.7205 / 60, 12);
    expect(sheet.exhaust?.flow[1]).toBeCloseTo(2.6005 / 60, 12);
  });

  it('whose flow is in a unit not read here is told which are', () =>
    expect(refusal('Lift (mm);Intake (kg/min)\n1;0.8\n8;4.7\n')).toBe(
      "flow.csv:1 has no intake column among 'Lift (mm)', 'Intake (kg/min)' (units of flow are cfm, l/s, l/min, m3/min, m3/h)",
    ));

  it('whose cells are not separated is refused with the header that was seen', () =>
    expect(refusal('Lift Intake Exhaust\n0.1 60 50\n0.3 170 130\n')).toBe(
      "flow.csv:1 has one cell in its header: 'Lift Intake Exhaust' (separate the cells by commas, semicolons, tabs or bars)",
    ));

  it('may say I and E for its sides', () => {
    const sheet = read('lift in,I cfm,E cfm\n0.1,60,50\n0.3,170,130\n');
    expect(sheet.exhaust?.flow[1]).toBeCloseTo(130 * CFM, 12);
  });

  it('that the file names for one side needs no word of it', () => {
    const of = (header: string, side: 'intake' | 'exhaust') => {
      const text = `${header}\n0.1,60,61\n0.3,170,174\n`;
      const sheet = readFlowSheet(text, 'flow.csv', side);
      if (!sheet.ok) return sheet.problems.map(problemLine).join('\n');
      return [sheet.value.intake, sheet.value.exhaust].map((each) => each?.flow[1] ?? null);
    };
    const [one, mean] = [170 * CFM, 172 * CFM];
    expect(of('lift in,cfm,ratio %', 'intake')).toEqual([expect.closeTo(one, 12), null]);
    expect(of('lift in,flow cfm,ratio %', 'exhaust')).toEqual([null, expect.closeTo(one, 12)]);
    expect(of('lift in,cyl 1 cfm,cyl 2 cfm', 'exhaust')).toEqual([null, expect.closeTo(mean, 12)]);
    // A side that is said counts, whatever the file names the sheet for.
    expect(of('lift in,intake cfm,ratio %', 'exhaust')).toEqual([expect.closeTo(one, 12), null]);
    expect(of('lift in,run a cfm,run b cfm', 'intake')).toContain('has two intake columns');
  });

  it('that names neither side is refused with the columns that were seen', () =>
    expect(refusal('lift in,test 1 cfm,test 2 cfm\n0.1,60,50\n0.3,170,130\n')).toBe(
      "flow.csv:1 has no intake column among 'lift in', 'test 1 cfm', 'test 2 cfm' (name it 'intake cfm')",
    ));

  it('flowed with the carburetor on its manifold is refused, since that loss would count twice', () =>
    expect(
      refusal('lift in,intake cfm,intake with manifold and carb cfm\n0.1,60,55\n0.3,170,150\n'),
    ).toContain(
      "has a carburetor or throttle in the flow with manifold: 'intake with manifold and carb cfm'",
    ));

  it('with several intake columns that name no cylinders is refused with all of them', () => {
    for (const [one, other] of [
      ['intake run 1 cfm', 'intake run 2 cfm'],
      ['intake 10 inH2O cfm', 'intake 15 inH2O cfm'],
      ['intake 1 cfm', 'int 1 cfm'],
      ['intake 25 cfm', 'intake 28 cfm'],
    ])
      expect(refusal(`lift in,${one},${other}\n0.1,60,61\n0.3,170,172\n`)).toBe(
        `flow.csv:1 has two intake columns: '${one}' and '${other}' (keep one of them, or name the cylinder of each: 'intake 1 cfm', 'intake 2 cfm')`,
      );
  });

  it('with a column of flow that no word explains is refused, so that no estimate stands in for it', () => {
    expect(refusal('lift in,intake cfm,aux cfm\n0.1,60,50\n0.3,170,130\n')).toBe(
      "flow.csv:1 has a column of flow that is neither intake, exhaust nor intake with manifold: 'aux cfm' (rename the column, or take it out)",
    );
  });

  it('keeps ratios and remarks beside its figures out of them, and says so', () => {
    const sheet = read('lift in,intake cfm,exhaust cfm,ex/in %,note\n0.1,60,50,83,\n0.3,170,130,76,noisy\n');
    expect(sheet.ignored).toEqual(['ex/in %', 'note']);
  });
});

describe('the depression that a sheet speaks of', () => {
  const sheet = (said: string): string =>
    `# ${said}\nlift in,intake cfm,exhaust cfm\n0.1,60,50\n0.3,165,125\n`;
  const answer = (said: string, bench: string): readonly string[] => {
    const text = fileWith({ heads: `{ valvesPerCylinder: 2, flow: flow.csv${bench} }` });
    const result = readCombination(text, { file: 'e.yaml', sheet: () => sheet(said) });
    return result.ok ? [] : result.problems.map(problemLine);
  };

  it('must be that of the file', () => {
    expect(answer('tested at 25 in H2O', ', bench: { depression: 28 inH2O }')).toEqual([
      'e.yaml:3:32 heads.flow names the sheet flow.csv, which says 25 inH2O; the file gives 28 inH2O (state heads.bench.depression, 25 inH2O?)',
    ]);
    expect(answer('Test pressure: 28" of water', ', bench: { depression: 28 inH2O }')).toEqual([]);
  });

  it('is asked for where the file gives none and the sheet another than the usual', () => {
    expect(answer('10 in. H2O', '')[0]).toContain(
      'the file gives no depression (state heads.bench.depression, 10 inH2O?)',
    );
    expect(answer('28 inH2O', '')).toEqual([]);
  });

  it.each([
    ['behind the unit', 'intake cfm @ 25" H2O', 'exhaust cfm @ 25" H2O'],
    ['as a number alone', 'Intake CFM@25', 'Exhaust CFM@25'],
    ['in words', 'intake cfm at 25 in H2O', 'exhaust cfm'],
  ])('is read from the headers, %s', (_what, intake, exhaust) => {
    const of = read(`lift in,${intake},${exhaust}\n0.1,60,50\n0.3,165,125\n`);
    expect(of.depression).toBeCloseTo(25 * INCH_OF_WATER, 6);
    expect(of.intake?.flow[1]).toBeCloseTo(165 * CFM, 12);
  });

  it.each([
    ['Depression: 25 in', 25 * INCH_OF_WATER],
    ['Test pressure 7 kPa', 7000],
    ['test pressure (mbar) 62.3', null],
    ['barometer 29.92 in Hg', null],
    ['bore 4.030 in', null],
  ])('is read from the title where it is one: %s', (said, pascal) =>
    expect(read(`${said}\nlift in,intake cfm\n0.1,60\n0.3,165\n`).depression).toBe(pascal),
  );

  it('may stand in a column of its own, and must then be one', () => {
    const rows = (last: number): string =>
      `lift in,depression inH2O,intake cfm\n0.1,25,60\n0.3,${last},165\n`;
    expect(read(rows(25)).depression).toBeCloseTo(25 * INCH_OF_WATER, 6);
    expect(read(rows(25)).ignored).toEqual([]);
    expect(refusal(rows(20))).toBe(
      'flow.csv:3 has a depression that changes from row to row: 25, then 20 (bring all flows to one depression, by the square root of its ratio)',
    );
  });
});

describe('the pipe on the exhaust', () => {
  const combination = (header: string, bench = '') =>
    readCombination(fileWith({ heads: `{ valvesPerCylinder: 2, flow: flow.csv${bench} }` }), {
      file: 'e.yaml',
      sheet: () => `lift in,intake cfm,${header}\n0.1,60,50\n0.3,165,125\n`,
    });
  const assumed = (header: string): boolean => {
    const result = combination(header);
    if (!result.ok) throw new Error(result.problems.map(problemLine).join('\n'));
    return result.value.assumed.some(({ path }) => path === 'heads.bench.exhaustPipe');
  };
  const lastArea = (header: string): number => {
    const result = combination(header);
    if (!result.ok) throw new Error(result.problems.map(problemLine).join('\n'));
    return result.value.exhaust.flow.area[1];
  };

  it.each(['exhaust cfm w/o pipe', 'exhaust (no pipe) cfm', 'exhaust bare cfm'])(
    'is counted on where the header says that there was none: %s',
    (header) => {
      expect(assumed(header)).toBe(false);
      expect(lastArea(header) / lastArea('exhaust cfm w/pipe')).toBeCloseTo(1.05, 2);
    },
  );

  it('is assumed where neither header nor file says', () => expect(assumed('exhaust cfm')).toBe(true));

  it('must be that of the file', () => {
    const result = combination('exhaust cfm w/o pipe', ', bench: { exhaustPipe: true }');
    expect(result.ok ? [] : result.problems.map(problemLine)).toEqual([
      'e.yaml:3:57 heads.bench.exhaustPipe is true, but the header of flow.csv says without pipe (write false, or mend the sheet)',
    ]);
    expect(result.ok ? '' : result.problems[0].code).toBe('pipe-contradicts');
  });
});
