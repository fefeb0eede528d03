import type { PressureComparison } from '@valvetide/core';
import { describe, expect, it } from 'vitest';
import { CORE, type Core } from '../src/core.ts';
import { EXIT } from '../src/exitCodes.ts';
import { main } from '../src/main.ts';
import { world } from './fakeIo.ts';
import { samplePressures } from './report/samplePressures.ts';

const SHEET = `# speed: 6000 rpm
# cylinder: 1
# zero: firing top centre
# pressures: absolute
# exhaust from valve: 260 mm
crank deg,exhaust kPa
${Array.from({ length: 72 }, (_, i) => `${10 * i},100`).join('\n')}
`;
const files = {
  'a.yaml':
    'name: One\nengine: { bore: 90 mm, stroke: 80 mm, cylinders: 1 }\nchamber: { compression: 9.5 }\nheads: { valvesPerCylinder: 2 }\n',
  'p.csv': SHEET,
  'bad.csv': SHEET.replace('# zero: firing top centre\n', ''),
};

function invented(change: Partial<PressureComparison['overlays'][number]> = {}): Core {
  const sample = samplePressures();
  const overlays = sample.overlays.map((overlay) => ({ ...overlay, ...change }));
  return { ...CORE, comparePressures: () => ({ ok: true, value: { ...sample, overlays } }) };
}

describe('valvetide pressures', () => {
  it('leads with when the waves come, and tells means and swings', async () => {
    const w = world({ files });
    expect(await main(['pressures', 'a.yaml', '--trace', 'p.csv'], w.io, invented())).toBe(EXIT.ok);
    const out = w.out().replaceAll(/\s+/gu, ' ');
    expect(out).toContain('Exhaust at 6000 rpm: the waves of the forecast come 4.2 crank deg late;');
    expect(out).toContain('exhaust 6000 1 10.2');
    const si = world({ files });
    await main(['pressures', 'a.yaml', '--trace', 'p.csv', '--units', 'si'], si.io, invented());
    expect(si.out().replaceAll(/\s+/gu, ' ')).toContain('exhaust 6000 1 260');
  });

  it('tells no timing of waves that are not alike, and none of less than a sensor can', async () => {
    const told = async (change: Parameters<typeof invented>[0]): Promise<string> => {
      const w = world({ files });
      await main(['pressures', 'a.yaml', '--trace', 'p.csv', '--quiet'], w.io, invented(change));
      return w.out().replaceAll(/\s+/gu, ' ');
    };
    expect(await told({ likeness: 0.4 })).toContain('the waves are not alike (40 %)');
    expect(await told({ lagDeg: null })).toContain("their timing can't be compared");
    expect(await told({ lagDeg: -0.2 })).toContain('come when the measured ones do');
    expect(await told({ lagDeg: -3, status: 'unsettled' })).toMatch(/3\.0 crank deg early.*had not settled/u);
  });

  it('gives every angle as CSV, all of it as JSON, and draws', async () => {
    const csv = world({ files });
    await main(['pressures', 'a.yaml', '--trace', 'p.csv', '--csv'], csv.io, invented());
    const [header, first] = csv.out().split(/\r?\n/u);
    expect(header).toBe('sheet,rpm,cylinder,place,fromValveMm,crankDegAtdc,measuredKpa,forecastKpa,lagDeg');
    expect(first.split(',').slice(1, 6)).toEqual(['6000', '1', 'exhaust', '260', '-360']);
    const drawn = world({ files });
    const words = [
      'pressures',
      'a.yaml',
      '--trace',
      'p.csv',
      '--json',
      '--svg',
      'p.svg',
      '--report',
      'p.html',
    ];
    expect(await main(words, drawn.io, invented())).toBe(EXIT.ok);
    expect(JSON.parse(drawn.out())).toMatchObject({ command: 'pressures', overlays: [{ lagDeg: 4.2 }] });
    expect(drawn.files.get('p.svg')).toContain('crank angle after firing top centre');
    expect(drawn.files.get('p.html')).toContain('id="exhaust-pressure"');
  });

  it('asks for what a sheet leaves open, and for the sheet', async () => {
    const w = world({ files });
    expect(await main(['pressures', 'a.yaml', '--trace', 'bad.csv'], w.io, invented())).toBe(EXIT.input);
    expect(w.err()).toContain('does not say which top centre its angles count from');
    const none = world({ files });
    expect(await main(['pressures', 'a.yaml'], none.io, invented())).toBe(EXIT.usage);
    expect(none.err()).toContain('--trace SHEET');
  });
});
