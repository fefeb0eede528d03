/** Cells and columns that a sheet is short of, has too many of, or has no room for: each is told with its line, or left out with a word. */
import { describe, expect, it } from 'vitest';
import { problemLine } from '../../src/combination/problem.ts';
import { type DynoSheet, readDynoSheet } from '../../src/dyno/dynoSheet.ts';

const STANDARD = '# standard: J607\n';
const TOP = `${STANDARD}rpm,torque (lb-ft)\n`;

function sheet(text: string): DynoSheet {
  const read = readDynoSheet(text, { name: 'pull.csv' });
  if (!read.ok) throw new Error(read.problems.map(problemLine).join('\n'));
  return read.value;
}

function complaints(text: string, standard?: 'J607' | 'J1349' | 'none'): readonly string[] {
  const read = readDynoSheet(text, { name: 'pull.csv', standard });
  return read.ok ? [] : read.problems.map(problemLine);
}

describe('the columns of a dyno sheet', () => {
  it('of torque, one corrected, one as observed: the corrected one, unless the sheet says that nothing is corrected', () => {
    const body =
      'rpm,observed torque (lb-ft),corrected torque (lb-ft)\n3000,380,400\n3500,385,405\n4000,390,410\n';
    const torque = (text: string): number => sheet(text).pulls[0].points[0].torqueNm / 1.3558179;
    expect(torque(`${STANDARD}${body}`)).toBeCloseTo(400, 3);
    expect(torque(`# standard: none\n${body}`)).toBeCloseTo(380, 3);
  });

  it('of torque that say nothing of a correction come before those that say the other thing', () => {
    const body = 'rpm,torque (lb-ft),observed torque (lb-ft)\n3000,400,380\n3500,405,385\n';
    expect(sheet(`${STANDARD}${body}`).pulls[0].points[0].torqueNm / 1.3558179).toBeCloseTo(400, 3);
  });

  it('may have their units in a row of their own, shorter than the header', () => {
    const { pulls } = sheet(`${STANDARD}rpm,torque,notes\n1/min,Nm\n3000,500,a\n3500,510,b\n`);
    expect(pulls[0].points[0].torqueNm).toBeCloseTo(500, 9);
  });

  it('of power in kW give torque by the speed', () => {
    const { pulls } = sheet(`${STANDARD}rpm,power (kW)\n3000,157.0796\n4000,209.4395\n`);
    expect(pulls[0].points.map(({ torqueNm }) => Math.round(torqueNm))).toEqual([500, 500]);
  });

  it.each([
    ['rpm,torque (lb-ft)', 'trade'],
    ['rpm,torque (Nm)', 'si'],
    ['rpm,torque (kg-m)', 'si'],
    ['rpm,power (hp)', 'trade'],
    ['rpm,power (PS)', 'si'],
    // Torque decides.
    ['rpm,torque (Nm),power (hp)', 'si'],
  ])('%s are of the %s system', (header, units) => {
    const power = header.includes(',power') && header.includes('torque') ? [',156.4', ',182.5'] : ['', ''];
    expect(sheet(`${STANDARD}${header}\n3000,371.2${power[0]}\n3500,371.3${power[1]}\n`).units).toBe(units);
  });

  it.each([
    ['a column', `${STANDARD}rpm,wheel torque (lb-ft)\n`],
    ['a title', `# Chassis dyno, 4th gear\n${STANDARD}rpm,torque (lb-ft)\n`],
    ['a remark', `${STANDARD}# figures at the rear wheel\nrpm,torque (lb-ft)\n`],
  ])('that are of the wheels by %s are known as such, and noted', (_, top) => {
    const { notes, atWheels } = sheet(`${top}3000,380\n3500,385\n`);
    expect(atWheels).toBe(true);
    expect(notes.join('\n')).toMatch(/at the wheels/u);
  });

  it.each([
    ['a wheel speed beside them', `${STANDARD}rpm,torque (lb-ft),wheel speed (mph)\n`],
    [
      'a flywheel',
      `# torque at the flywheel, from a chassis dyno\n${STANDARD}rpm,torque (lb-ft),power (hp)\n`,
    ],
  ])('are those of the engine with %s', (_, top) => {
    const { notes, atWheels } = sheet(`${top}3000,380,217.1\n3500,385,256.6\n`);
    expect(atWheels).toBeUndefined();
    expect(notes.join('\n')).not.toMatch(/wheels/u);
  });

  it('that contradict the command are told with the line of the header', () => {
    const text = 'rpm,J1349 torque (lb-ft)\n3000,380\n3500,385\n';
    expect(complaints(text, 'J607')).toEqual([
      'pull.csv:1 says its figures refer to J1349, the command says J607',
    ]);
  });
});

describe('the cells of a dyno sheet', () => {
  it('that no engine reaches are told once each, by torque or by power', () => {
    expect(complaints(`${TOP}3000,99999\n3500,380\n`)[0]).toMatch(
      /^pull\.csv:3 has 135600 N m of torque, more than any engine/u,
    );
    expect(complaints(`${STANDARD}rpm,power (hp)\n3000,99999\n3500,280\n`)[0]).toMatch(
      /^pull\.csv:3 has 74570 kW of power, more than any engine/u,
    );
  });

  it('that are no numbers are told up to ten, whoever has more begins anew', () => {
    const rows = Array.from({ length: 30 }, (_, i) => `${3000 + 50 * i},x${i}`).join('\n');
    expect(complaints(TOP + rows)).toHaveLength(10);
  });

  it('of one speed that no engine has: that line alone', () => {
    expect(complaints(`${TOP}3000,380\n90000,385\n4000,390\n`)).toEqual([
      'pull.csv:4 has the engine speed 90000 rpm, which is outside 200 to 25000',
    ]);
  });

  it('of an unread column may hold anything', () => {
    const { pulls } = sheet(
      `${STANDARD}pull,rpm,torque (lb-ft)\na-1,3000,380\na-1,3500,385\n,3000,370\n,3500,375\n`,
    );
    // Rows without a number of a pull are one of their own.
    expect(pulls.map(({ name, points }) => [name, points.length])).toEqual([
      ['a-1', 2],
      ['without a number', 2],
    ]);
  });

  it('of a short row are blank: a row without torque is left out with a word', () => {
    const { pulls, notes } = sheet(`${TOP}3000,380\n3250\n3500,385\n`);
    expect(pulls[0].points).toHaveLength(2);
    expect(notes).toEqual(['1 row without speed, torque or power left out: line 4']);
  });

  it('of the air beside each speed may be blank in some: the others give the mean', () => {
    const text = `${STANDARD}rpm,torque (lb-ft),barometer (kPa),air temp (degC)\n3000,380,98,20\n3500,385,,\n4000,390,100,22\n`;
    const { weather } = sheet(text).pulls[0];
    expect(weather?.pressure).toBeCloseTo(99_000, 3);
    expect(weather?.temperature).toBeCloseTo(294.15, 6);
  });
});

describe('the air above a pull', () => {
  const air = (line: string): DynoSheet => sheet(`# ${line}\n${TOP}3000,380\n3500,385\n`);

  it('by its dew point: the vapour that saturates there', () => {
    // Water saturates at 12.27 hPa at 10 degC (Goff and Gratch's table; from memory).
    const { weather } = air('Barometer: 98.0 kPa\n# Air temperature: 25 degC\n# Dew point: 10 degC').pulls[0];
    expect((weather?.vapourPressure ?? 0) / 1227).toBeCloseTo(1, 2);
  });

  it.each([
    ['Air temperature: 25 degC', 'no barometer with its unit'],
    ['Barometer: 98.0 kPa', 'no air temperature with its unit'],
    ['Humidity: 40 %', 'no barometer and no air temperature with its unit'],
  ])('in part, %s, is not used, and says what is missing', (line, missing) => {
    const { pulls, notes } = air(line);
    expect(pulls[0].weather).toBeNull();
    expect(notes.join('\n')).toContain(`gives the air of the day in part: ${missing}`);
  });

  it('with a factor that fits no standard says only what its own formula gives', () => {
    const { notes } = air(
      'Barometer: 98.0 kPa\n# Air temperature: 25 degC\n# Humidity: 40 %\n# Correction factor: 1.200',
    );
    expect(notes.join('\n')).toMatch(/prints the factor 1\.2, J607 gives 1\.0\d+ for its air$/u);
  });
});

describe('speeds out of order', () => {
  it('by less than half of what a pull spans are one pull put in order', () => {
    const rising = [2000, 2500, 3000, 3500, 4000, 4500, 5000, 4200, 5500, 6000];
    const falling = [6000, 5500, 5000, 4500, 4000, 3500, 3000, 3800, 2500, 2000];
    for (const speeds of [rising, falling]) {
      const { pulls } = sheet(TOP + speeds.map((rpm) => `${rpm},380`).join('\n'));
      expect(pulls.map(({ points }) => points.map(({ rpm }) => rpm))).toEqual([
        [...speeds].sort((a, b) => a - b),
      ]);
    }
  });
});
