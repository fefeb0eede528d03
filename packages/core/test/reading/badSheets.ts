/** Sheets that are wrong in one way or more, by the names that the bad files give them. */

/** A lobe of nine rows, at these angles. */
const lobe = (header: string, angles: readonly number[]): string =>
  [
    header,
    ...angles.map((angle, i) => `${angle},${[0, 0.05, 0.15, 0.25, 0.3, 0.25, 0.15, 0.05, 0][i]}`),
  ].join('\n');

/** Sheets that the files name. */
export const SHEETS: Readonly<Record<string, string>> = {
  'nounit.csv': 'lift,intake cfm\n0.1,60\n0.3,170\n',
  'slip.csv': 'lift in,intkae cfm\n0.1,60\n0.3,170\n',
  'comma.csv': 'lift in,intake cfm\n0,1,60\n',
  'word.csv': '# bench 2\nlift in,intake cfm\n0.1,sixty\n0.3,170\n',
  'falls.csv': 'lift in,intake cfm\n0.3,170\n0.1,60\n',
  'empty.csv': '',
  'quote.csv': 'lift in,intake cfm\n"0.1,60\n0.3,170\n',
  'negative.csv': 'lift in,intake cfm\n0.1,-60\n0.3,170\n',
  'mixed.csv': 'lift in,intake cfm\n0.1,60\n5,170\n',
  'huge.csv': 'lift in,intake cfm\n0.1,60\n0.3,1e9\n',
  'nolift.csv': 'rise in,intake cfm\n0.1,60\n0.3,170\n',
  'swapped.csv': 'lift cfm,intake in\n0.1,60\n0.3,170\n',
  'high.csv': 'lift in,intake cfm,exhaust cfm\n0.1,60,50\n0.3,470,130\n0.5,510,150\n',
  'inches.csv': 'lift mm,intake cfm,exhaust cfm\n0.1,60,50\n0.3,165,120\n0.5,204,149\n',
  'port.csv': 'lift in,intake cfm,exhaust cfm\n0.1,60,50\n0.3,165,120\n0.5,204,149\n',
  'ten.csv': 'lift in,intake cfm,exhaust cfm\n0.1,40,30\n0.3,102,78\n0.5,125,90\n',
  'twice.csv': 'lift in,intake cfm,int cfm\n0.1,60,50\n0.3,170,130\n',
  'degrees.csv': 'deg,lobe lift in\n0,0.3\n10,0.2\n',
  'whose.csv': lobe('crank deg,lift in', [-120, -90, -60, -30, 0, 30, 60, 90, 120]),
  'angles.csv': lobe('crank deg,lobe lift in', [-1500, -90, -60, -30, 0, 30, 60, 90, 120]),
  'turns.csv': lobe('crank deg,lobe lift in', [-400, -90, -60, -30, 0, 30, 60, 90, 400]),
  'back.csv': lobe('crank deg,lobe lift in', [-120, -90, -60, -70, 0, 30, 60, 90, 120]),
  'cut.csv':
    'crank deg,lobe lift in\n-60,0.1\n-45,0.15\n-30,0.2\n-15,0.25\n0,0.3\n15,0.25\n30,0.2\n45,0.15\n60,0\n',
  'wide.csv': `lift in${',intake cfm'.repeat(40)}\n0.1${',60'.repeat(40)}\n`,
  'long.csv': `lift in,intake cfm\n${'0.1,60\n'.repeat(60_000)}`,
  'units.csv': 'lift,intake\nin,cfm\n',
  'flat.csv': 'crank deg,lobe lift in\n-3,0\n-2,0.01\n-1,0.02\n0,0.02\n1,0.01\n2,0\n3,0\n4,0\n',
};
