import { describe, expect, it } from 'vitest';
import { problemLine } from '../../src/combination/problem.ts';
import { type DynoSheet, readDynoSheet } from '../../src/dyno/dynoSheet.ts';

const STANDARD = '# standard: J607\n';

function sheet(text: string, standard?: 'J607' | 'J1349' | 'none'): DynoSheet {
  const read = readDynoSheet(text, { name: 'pull.csv', standard });
  if (!read.ok) throw new Error(read.problems.map(problemLine).join('\n'));
  return read.value;
}

function complaints(text: string, standard?: 'J607' | 'J1349' | 'none'): string {
  const read = readDynoSheet(text, { name: 'pull.csv', standard });
  return read.ok ? '' : read.problems.map(problemLine).join('\n');
}

/** Rows of a plausible pull, power from torque, hp to one decimal. */
function rows(from: number, to: number, step: number, torque = 400): string {
  let text = '';
  for (let rpm = from; rpm <= to; rpm += step)
    text += `${rpm},${torque.toFixed(1)},${((torque * rpm) / 5252.113).toFixed(1)}\n`;
  return text;
}

describe('readDynoSheet(text)', () => {
  it('takes torque and power to SI: 400 lb-ft are 542.33 N m, and at 5252 rpm about 400 hp, 298.3 kW', () => {
    const { pulls } = sheet(`${STANDARD}rpm,torque (lb-ft),power (hp)\n4000,400.0,304.6\n5252,400.0,400.0\n`);
    expect(pulls[0].points[1].torqueNm).toBeCloseTo(542.327, 3);
    expect(pulls[0].points[1].powerKw).toBeCloseTo(298.27, 2);
  });

  it.each(['0x190', 'Infinity', '1e999', '-.', '+', 'e5'])(
    'takes no other notation for a number: %s',
    (cell) => {
      expect(complaints(`${STANDARD}rpm,torque (lb-ft)\n4000,${cell}\n4500,400\n5000,400\n`)).toBe(
        `pull.csv:3 has '${cell}' in column 'torque (lb-ft)', which is no number`,
      );
    },
  );

  it('finds columns in any order and by any usual name, and keeps what else is there', () => {
    const { pulls, ignored } = sheet(
      `${STANDARD}Oil Press psi,BHP,Corrected torque [ft-lbs],Engine Speed,A/F,Fuel (lb/hr),Air scfm,Vac inHg,Oil Temp (F),Remark\n` +
        '60,304.6,400.0,4000,12.8,140,400,0.8,212,good\n62,342.7,400.0,4500,12.9,155,440,0.9,214,\n',
    );
    const { channels, rpm } = pulls[0].points[0];
    expect(rpm).toBe(4000);
    expect(channels.airFuelRatio).toBe(12.8);
    expect(channels.fuelKgPerH).toBeCloseTo(63.503, 3);
    // 400 scfm at 4.58 lb/h each (common practice, no source).
    expect(channels.airflowKgPerH).toBeCloseTo(400 * 4.58 * 0.45359237, -1);
    expect(channels.manifoldVacuumKpa).toBeCloseTo(2.709, 3);
    expect(channels.oilTemperatureK).toBeCloseTo(373.15, 2);
    expect(channels.oilPressureKpa).toBeCloseTo(413.7, 1);
    expect(ignored).toEqual(['Remark']);
  });

  it('reads units from a row of their own, tabs, a byte order mark, Windows lines and trailing cells', () => {
    const { pulls } = sheet(
      '\uFEFF# standard: J1349\r\nrpm\ttorque\tpower\t\t\r\n1/min\tNm\tkW\t\t\r\n3000\t500\t157.1\t\t\r\n3500\t510\t186.9\t\t\r\n',
    );
    expect(pulls[0].points.map((p) => p.torqueNm)).toEqual([500, 510]);
  });

  it('reads decimal commas where cells are separated by semicolons', () => {
    const { pulls, notes } = sheet(
      'standard; J607\nrpm;torque Nm;power kW\n3000;500,5;157,2\n3500;510,5;187,1\n',
    );
    expect(pulls[0].points[0].torqueNm).toBe(500.5);
    expect(notes.join()).toContain('decimal commas');
  });

  it('takes torque from power where a sheet gives only power: 100 hp at 5252.113 rpm are 100 lb-ft', () => {
    const { pulls } = sheet(`${STANDARD}rpm,hp\n5252.113,100\n6000,110\n`);
    expect(pulls[0].points[0].torqueNm).toBeCloseTo(135.5818, 3);
  });

  it('prefers corrected columns under a standard and observed ones without', () => {
    const text = 'rpm,observed torque lb-ft,corrected torque lb-ft\n3000,400,410\n4000,420,430\n';
    expect(sheet(text, 'J607').pulls[0].points[0].torqueNm).toBeCloseTo(410 * 1.3558179, 3);
    expect(sheet(text, 'none').pulls[0].points[0].torqueNm).toBeCloseTo(400 * 1.3558179, 3);
    expect(sheet(text, 'none').ignored).toEqual(['corrected torque lb-ft']);
  });

  it('reads the air of the day: 29.35 inHg, 85 F, 0.6 inHg of vapour', () => {
    const { pulls } = sheet(
      `Barometer (inHg), 29.35\nAir temperature, 85 degF\nvapor pressure: 0.60 inHg\n${STANDARD}rpm,torque lb-ft\n3000,400\n4000,410\n`,
    );
    expect(pulls[0].weather?.pressure).toBeCloseTo(99_390.5, 0);
    expect(pulls[0].weather?.temperature).toBeCloseTo(302.594, 2);
    expect(pulls[0].weather?.vapourPressure).toBeCloseTo(2031.8, 0);
  });

  it('says that humidity was taken for granted, and doubts a factor that its standard does not give', () => {
    const text = (standard: string) =>
      `# standard: ${standard}\n# barometer: 28.85 inHg\n# temperature: 85 degF\n# vapor pressure: 1.03 inHg\n# correction factor: 1.1005\nrpm,torque lb-ft\n3000,400\n4000,410\n`;
    expect(sheet(text('J607')).notes.join()).not.toContain('factor');
    expect(sheet(text('J1349')).notes.join()).toContain('so the standard may be J607');
    expect(
      sheet(
        `# barometer: 28.85 inHg\n# temperature: 85 degF\n${STANDARD}rpm,torque lb-ft\n3000,400\n4000,410\n`,
      ).notes.join(),
    ).toContain('nothing of humidity');
  });
});

describe('the standard of a sheet', () => {
  const body = 'rpm,torque lb-ft\n3000,400\n4000,410\n';

  it('is the one that a title or remark speaks of, where no line or header states it, and says so', () => {
    const rows = 'rpm,torque lb-ft\n3000,400\n4000,410\n';
    for (const title of [
      'Job 77 - SAE J1349 corrected - Room 2',
      '# all figures J1349',
      'Room 2; SAE J1349',
    ]) {
      const read = sheet(`${title}\n${rows}`);
      expect(read.standard).toBe('J1349');
      expect(read.notes.join()).toContain('takes J1349 for its standard');
    }
    expect(sheet(`${STANDARD}# was J1349 once\n${rows}`).notes).toEqual([]);
    expect(sheet(`SAE J1349\n${STANDARD}${rows}`).standard).toBe('J607');
    expect(sheet(`SAE J1349\n${rows}`, 'J607').notes.join()).toContain(
      'speaks of J1349, but is read as J607',
    );
  });

  it.each([
    '# 4 % less than J1349',
    'not J607',
    '# J607 in 2019\n# J1349 today',
    'J607 or J1349?',
    'converted from J607',
  ])('is not taken from %s', (remark) => {
    expect(complaints(`${remark}\nrpm,torque lb-ft\n3000,400\n4000,410\n`)).toContain(
      'which correction standard',
    );
  });

  it('is asked for where nothing states it', () => {
    expect(complaints(body)).toContain('does not say which correction standard');
    expect(complaints(body)).toContain('--standard');
  });

  it('may come from the caller, or from a header', () => {
    expect(sheet(body, 'J1349').standard).toBe('J1349');
    expect(sheet('rpm,J607 torque lb-ft\n3000,400\n4000,410\n').standard).toBe('J607');
  });

  it('must not be named twice', () => {
    expect(complaints(`${STANDARD}${body}`, 'J1349')).toContain('the command says J1349');
    expect(complaints(`${STANDARD}# standard: SAE J1349\n${body}`)).toContain('second standard');
  });

  it('is asked for where the header has a word of its own for it', () => {
    expect(complaints('rpm,standard day torque lb-ft\n3000,400\n4000,410\n')).toContain(
      'write a line `# standard: J607`, which STP and STD are, or J1349 or none,',
    );
  });

  it('is not SAE alone, and not one unknown here', () => {
    expect(complaints(`# standard: SAE\n${body}`)).toContain('may be J607 or J1349');
    expect(complaints(`# standard: DIN 70020\n${body}`)).toContain('reads 1 to 2 % below J607');
    expect(complaints(`# standard: STP\n${body}`)).toContain(
      'STP and STD are J607 (60 F, 29.92 inHg dry): write J607',
    );
    expect(complaints(`# standard: ISO 1585\n${body}`)).toContain('refer to the air of J1349');
  });
});

describe('power against torque and speed', () => {
  it('passes within the printed digits: 377 lb-ft at 3800 rpm print as 273 hp', () => {
    expect(sheet(`${STANDARD}rpm,torque lb-ft,hp\n3800,377,273\n5300,333,336\n`).pulls).toHaveLength(1);
  });

  it('refuses the sheet and names the rows', () => {
    const text = `${STANDARD}rpm,torque lb-ft,hp\n3000,400,228.5\n3500,400,276.6\n4000,400,304.6\n4500,400,352.7\n`;
    expect(complaints(text)).toContain('pull.csv:4 has power that is not torque times speed at lines 4, 6');
    expect(complaints(text)).toContain('off by 3.8 %, 2.9 %');
  });

  it('guesses a slip of unit from one ratio on every row', () => {
    const inNm = `${STANDARD}rpm,torque lb-ft,hp\n3000,542.3,228.5\n3500,542.3,266.6\n4000,542.3,304.6\n4500,542.3,342.7\n`;
    expect(complaints(inNm)).toContain('torque looks like Nm under a header of lb-ft');
  });
});

describe('several pulls in one file', () => {
  it('are separated by blank lines', () => {
    const { pulls } = sheet(
      `${STANDARD}rpm,torque lb-ft,hp\n${rows(3000, 5000, 500)}\n\n${rows(3000, 5000, 500, 404)}`,
    );
    expect(pulls.map((pull) => [pull.name, pull.points.length])).toEqual([
      ['1', 5],
      ['2', 5],
    ]);
  });

  it('are numbered in a column', () => {
    const { pulls } = sheet(
      `${STANDARD}pull,rpm,torque lb-ft\n1,3000,400\n1,4000,410\n2,3000,402\n2,4000,411\n`,
    );
    expect(pulls.map((pull) => pull.points[0].torqueNm / 1.3558179483314)).toEqual(
      [400, 402].map((t) => expect.closeTo(t, 9)),
    );
  });

  it('may repeat their header, carry a name and have an air of their own', () => {
    const block = 'rpm,torque lb-ft\n3000,400\n4000,410\n';
    const air = (F: number) => `# barometer: 29.92 inHg\n# temperature: ${F} degF\n# humidity: 20 %\n`;
    const { pulls } = sheet(`${STANDARD}${air(60)}${block}\n# pull: 7\n${air(80)}${block}`);
    expect(pulls.map((pull) => pull.name)).toEqual(['1', '7']);
    expect(pulls.map((pull) => pull.weather?.temperature)).toEqual(
      [288.7056, 299.8167].map((T) => expect.closeTo(T, 3)),
    );
  });

  it('begin where the speed starts again, and that is said', () => {
    const { pulls, notes } = sheet(
      `${STANDARD}rpm,torque lb-ft,hp\n${rows(3000, 5000, 500)}${rows(3000, 5000, 500)}`,
    );
    expect(pulls).toHaveLength(2);
    expect(notes.join()).toContain('starts again at line 8');
  });

  it('are not made of a sheet with a blank line after every row', () => {
    const spaced = `${STANDARD}rpm,torque lb-ft,hp\n${rows(3000, 5000, 500)}`.replaceAll('\n', '\n\n');
    expect(sheet(spaced).pulls).toHaveLength(1);
  });
});

describe('garbage', () => {
  const header = `${STANDARD}rpm,torque lb-ft,hp\n`;

  it.each([
    ['nothing', '', 'is empty'],
    ['blank lines', '\n \r\n\n', 'is empty'],
    ['a picture', 'PNG\u0000\u0001', 'is no text'],
    ['a letter', 'Dear customer, your engine ran well.\nBest regards\n', 'has no column of engine speed'],
    ['no torque', `${STANDARD}rpm,oil temp F\n3000,200\n`, 'has no column of torque or power'],
    ['a misspelt column', `${STANDARD}rpm,torqe\n3000,400\n`, "did you mean torque by 'torqe'?"],
    ['no speed', `${STANDARD}torque lb-ft,hp\n400,300\n`, 'has no column of engine speed'],
    ['no unit', `${STANDARD}rpm,torque\n3000,400\n4000,400\n`, "has no unit in the header 'torque'"],
    ['a header alone', header, 'has no rows'],
    [
      'mixed decimal marks',
      'standard; J607\nrpm;torque Nm\n3000;500,5\n3500;510.5\n',
      'mixes decimal commas (line 3) and points (line 4)',
    ],
    ['decimal commas between commas', `${header}3000,400,5,228,5\n`, 'separate the cells by semicolons'],
    [
      'words among numbers',
      `${header}3000,four hundred,228.5\n3500,400,266.6\n`,
      "has 'four hundred' in column",
    ],
    ['speeds in thousands', `${header}3,400,228.5\n4,400,304.6\n`, 'outside 200 to 25000'],
    [
      'speeds that jump about',
      `${header}${[3000, 3300, 3100, 3400, 3200, 3500, 3300, 3600].map((n) => `${n},400,${((400 * n) / 5252.113).toFixed(1)}`).join('\n')}\n`,
      'rise and fall',
    ],
    ['one speed', `${header}3000,400,228.5\n`, 'has no pull of 2 speeds or more'],
    ['an open quote', `${header}3000,"400,228.5\n`, 'quote that does not close'],
    [
      'an impossible barometer',
      `# barometer: 29.9 kPa\n${header}${rows(3000, 5000, 500)}`,
      'impossible barometer',
    ],
    ['an impossible humidity', `# humidity: 300 %\n${header}${rows(3000, 5000, 500)}`, 'impossible humidity'],
    [
      'an impossible dew point',
      `# dew point: 200 degF\n${header}${rows(3000, 5000, 500)}`,
      'impossible dew point',
    ],
    [
      'a barometer without unit',
      `# barometer: 29.9\n${header}${rows(3000, 5000, 500)}`,
      'needs a number and its unit',
    ],
    ['too many characters', 'x'.repeat(8_000_001), 'is too long'],
  ])('%s: ends in a clear line', (_what, text, line) => expect(complaints(text)).toContain(line));

  it.each([
    [
      'a falling pull',
      `${header}${rows(3000, 5000, 500).trim().split('\n').reverse().join('\n')}\n`,
      5,
      'turned round',
    ],
    [
      'a repeated speed',
      `${header}3000,400,228.5\n3000,402,229.6\n3500,400,266.6\n`,
      2,
      'speed repeats at line 4: averaged',
    ],
    [
      'a small fall',
      `${header}3000,400,228.5\n3500,400,266.6\n3400,400,258.9\n4000,400,304.6\n4500,400,342.7\n`,
      5,
      'speed falls at line 5: put in order',
    ],
    [
      'blanks',
      `${header}3000,400,228.5\n3500,,\n4000,400,304.6\n,,\n4500,400,\n`,
      3,
      '1 row without speed, torque or power left out: line 4',
    ],
    [
      'a shut throttle',
      `${header}3000,400,228.5\n3500,400,266.6\n3600,-40,-27.4\n`,
      2,
      '1 row without positive torque left out: line 5',
    ],
  ])('%s: is repaired, and that is said', (_what, text, points, note) => {
    const { pulls, notes } = sheet(text);
    expect(pulls[0].points).toHaveLength(points);
    expect(notes.join('\n')).toContain(note);
  });

  it('averages a logger of 10 000 rows over steps of 50 rpm', () => {
    const lines = Array.from({ length: 10_000 }, (_, i) => {
      const rpm = 3000 + 0.4 * i + (i % 3);
      return `${rpm.toFixed(1)},${400 + (i % 5)},${(((400 + (i % 5)) * rpm) / 5252.113).toFixed(2)}`;
    });
    const { pulls, notes } = sheet(`${header}${lines.join('\n')}\n`);
    expect(notes).toEqual(['10000 rows averaged over steps of 50 rpm']);
    expect(pulls[0].points.length).toBeCloseTo(81, -0.5);
    expect(pulls[0].points[40].torqueNm / 1.3558179483314).toBeCloseTo(402, 0);
  });
});
