/** Sheets as users bring them, through each command that reads one: a clear line with its place, or a repair that is said. */

import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { CORE } from '../src/core.ts';
import { EXIT } from '../src/exitCodes.ts';
import { main } from '../src/main.ts';
import { type World, world } from './fakeIo.ts';
import { measuringCore } from './measuredRunner.ts';

const TOP = '# standard: J607\n';
const HEAD = 'rpm,torque (lb-ft),power (hp)\n';
const ROWS = [
  ['3000', '380.0', '217.1'],
  ['3500', '395.0', '263.2'],
  ['4000', '405.0', '308.4'],
  ['4500', '400.0', '342.7'],
  ['5000', '385.0', '366.5'],
] as const;

function body(delimiter = ',', cell: (text: string) => string = (text) => text): string {
  return ROWS.map((row) => `${row.map(cell).join(delimiter)}\n`).join('');
}

/** Ten thousand rows of a logger that scatters. */
function logged(): string {
  return Array.from({ length: 10_000 }, (_, i) => {
    const rpm = 2500 + 0.35 * i;
    const torque = 400 - ((rpm - 4200) / 150) ** 2 + 0.3 * (((7 * i) % 13) - 6);
    return `${rpm.toFixed(0)},${torque.toFixed(1)}\n`;
  }).join('');
}

/** What is refused: its name, its text, and the line that says so. */
const REFUSED: readonly (readonly [what: string, text: string, line: string])[] = [
  ['no torque and no power', `${TOP}rpm,lambda\n3000,0.88\n`, 'x.csv:2 has no column of torque or power'],
  ['no engine speed', `${TOP}torque (lb-ft),power (hp)\n380,217\n`, 'x.csv:2 has no column of engine speed'],
  [
    'mixed decimal marks',
    `${TOP}rpm;torque (lb-ft)\n3000;380,0\n3500;395.0\n`,
    'x.csv:3 mixes decimal commas (line 3) and points (line 4)',
  ],
  [
    'speeds that rise and fall',
    `${TOP}rpm,torque (lb-ft)\n3000,380\n3500,390\n3100,384\n3600,391\n3200,386\n3700,392\n`,
    'x.csv:5 has speeds that rise and fall at lines 5, 7',
  ],
  ['an open quote', `${TOP}${HEAD}3000,"380.0,217.1\n`, 'x.csv:3 has a quote that does not close'],
  ['no units', `${TOP}rpm,torque\n3000,380\n`, "x.csv:2 has no unit in the header 'torque'"],
  [
    'an unknown standard',
    `# standard: DIN 70020\nrpm,torque (lb-ft)\n3000,380\n3500,395\n`,
    "x.csv:1 names the standard 'DIN 70020'",
  ],
  ['no standard', 'rpm,torque (lb-ft)\n3000,380\n', 'x.csv:1 does not say which correction standard'],
  [
    'two standards',
    '# standard: J607\n# standard: J1349\nrpm,torque (lb-ft)\n3000,380\n',
    'x.csv:2 names a second standard',
  ],
  [
    'power that is not torque times speed',
    `${TOP}${HEAD}3000,380.0,217.1\n3500,395.0,290.2\n`,
    'x.csv:4 has power that is not torque times speed at line 4 (off by 10.2 %)',
  ],
  ['nothing', '', 'x.csv is empty'],
  ['a header alone', `${TOP}${HEAD}`, 'x.csv:2 has no rows below its header'],
  [
    'thousands with a comma in quotes',
    `${TOP}${HEAD}"3,000",380.0,217.1\n"3,500",395.0,263.2\n`,
    "x.csv:3 has the engine speed 3 rpm, which is outside 200 to 25000, and likewise at line 4 (if '3,000' means 3000",
  ],
  [
    'thousands with a comma in the open',
    `${TOP}${HEAD}3,000,380.0,217.1\n`,
    'x.csv:3 has 4 cells, the header has 3 (write thousands without a comma',
  ],
  [
    'thousands set apart by a blank',
    `${TOP}rpm;torque (lb-ft)\n3 000;380\n`,
    "x.csv:3 has '3 000' in column 'rpm', which is no number (write thousands without a separator)",
  ],
  ['speeds in thousands', `${TOP}rpm,torque (lb-ft)\n3,380\n4,405\n`, 'in thousands? write speeds in rpm'],
  [
    'words for a number',
    `${TOP}rpm,torque (lb-ft)\n3000,about 380\n`,
    "x.csv:3 has 'about 380' in column 'torque (lb-ft)', which is no number",
  ],
  ['torque of a ship', `${TOP}rpm,torque (lb-ft)\n3000,380000\n3500,1\n`, 'more than any engine'],
  ['no more than one speed', `${TOP}rpm,torque (lb-ft)\n3000,380\n`, 'x.csv:2 has no pull of 2 speeds'],
  [
    'torque below zero',
    `${TOP}rpm,torque (lb-ft)\n3000,-380\n`,
    'x.csv:2 has no row with speed and positive',
  ],
  [
    'columns separated by strokes',
    `${TOP}rpm|torque (lb-ft)\n3000|380\n`,
    'x.csv:2 has a header whose columns',
  ],
  ['no table at all', 'it was loud\nand fast\n', 'x.csv has no header that names its columns'],
  ['a spreadsheet', 'PK\u0003\u0004\u0000', 'x.csv is no text: save it as CSV'],
];

/** What is read: its name, its text, and the repair that is said; empty where nothing had to be repaired. */
const READ: readonly (readonly [what: string, text: string, note: string])[] = [
  ['a byte-order mark', `\uFEFF${TOP}${HEAD}${body()}`, ''],
  ['semicolons', `${TOP}${HEAD.replaceAll(',', ';')}${body(';')}`, ''],
  ['tabs', `${TOP}${HEAD.replaceAll(',', '\t')}${body('\t')}`, ''],
  ['quotes', `${TOP}"rpm","torque (lb-ft)","power (hp)"\n${body(',', (text) => `"${text}"`)}`, ''],
  ['line ends of another system', `${TOP}${HEAD}${body()}`.replaceAll('\n', '\r\n'), ''],
  [
    'decimal commas',
    `${TOP}${HEAD.replaceAll(',', ';')}${body(';', (text) => text.replace('.', ','))}`,
    'decimal commas read as such',
  ],
  ['a repeated speed', `${TOP}${HEAD}${body()}5000,387.0,368.4\n`, 'speed repeats at line 8: averaged'],
  [
    'speeds from high to low',
    `${TOP}${HEAD}${body().trim().split('\n').reverse().join('\n')}\n`,
    'falls from high speed to low: turned round',
  ],
  [
    'blank cells',
    `${TOP}${HEAD}${body()}5500,,\n,380.0,400.0\n`,
    '2 rows without speed, torque or power left out: lines 8, 9',
  ],
  ['ten thousand rows', `${TOP}rpm,torque (lb-ft)\n${logged()}`, '10000 rows averaged over steps of 50 rpm'],
  ['two pulls', `${TOP}${HEAD}${body()}\n${body()}`, ''],
  ['bytes that are no UTF-8', `${TOP}# Pr\uFFFDfstand\n${HEAD}${body()}`, 'has letters that are not UTF-8'],
];

const example = (name: string): string =>
  readFileSync(new URL(`../../../examples/hill-climb/${name}`, import.meta.url), 'utf8');

function shop(text: string): World {
  return world({
    files: { 'engine.yaml': example('engine.yaml'), 'flow.csv': example('flow.csv'), 'x.csv': text },
    columns: 300,
  });
}

const COMMANDS: readonly (readonly [name: string, words: readonly string[]])[] = [
  ['pulls', ['pulls', 'x.csv']],
  ['calibrate', ['calibrate', 'engine.yaml', '--pull', 'x.csv', '-o', 'new.yaml']],
  [
    'backtest',
    [
      'backtest',
      'engine.yaml',
      '--change',
      'exhaust.muffler.backPressure=1.3 psi',
      '--before',
      'x.csv',
      '--after',
      'x.csv',
    ],
  ],
];

describe.each(COMMANDS)('%s', (name, words) => {
  it.each(REFUSED)('refuses %s and says where', async (_what, text, line) => {
    const w = shop(text);
    expect(await main([...words], w.io)).toBe(EXIT.input);
    expect(w.out()).toBe('');
    expect(w.err()).toContain(line);
    // One line a sheet; a back-test was given the sheet twice.
    const lines = new Set(w.err().trim().split('\n'));
    expect([...lines]).toHaveLength(1);
    expect(w.files.has('new.yaml')).toBe(false);
  });

  it.each(READ)('reads %s', async (_what, text, note) => {
    const w = shop(text);
    // An engine of another size: what matters here is that the sheet was read, and that the repair is said.
    const code = await main([...words, '--json'], w.io, name === 'pulls' ? CORE : measuringCore(CORE));
    expect([EXIT.ok, EXIT.input], w.err()).toContain(code);
    expect(w.err()).not.toContain('x.csv:');
    expect(w.out()).toContain(note);
    expect(JSON.parse(w.out())).toMatchObject({ program: { name: 'valvetide' } });
  });
});
