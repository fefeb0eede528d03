import { areaFromFlow, type Combination } from '@valvetide/core';
import { describe, expect, it } from 'vitest';
import { EXIT } from '../src/exitCodes.ts';
import { main } from '../src/main.ts';
import { world } from './fakeIo.ts';
import { studyCore, type Torque } from './studies.ts';

const files = {
  'a.yaml': `
name: As bought
engine: { bore: 4.000 in, stroke: 3.480 in, cylinders: 8 }
chamber: { compression: 9.5 }
heads: { valvesPerCylinder: 2 }
induction: { carburetor: { rating: 600 cfm, barrels: 4 } }
`,
  'changes.yaml': `
changes:
  - { name: Twice the carburetor, set: { induction.carburetor.rating: 1200 cfm } }
  - { name: Larger plenum, scale: { induction.plenum: 1.1 } }
`,
};

/** 600 N m, less 48 at 6000 rpm for 600 cfm, by the squares of speed and area; less 10 while the runners' walls rub. */
const torque: Torque = ({ induction }: Combination, rpm) => {
  const { meteringArea, runner } = induction;
  const own = areaFromFlow(600 * 4.719474432e-4, 1.5 * 3386.389);
  const carburetor = 48 * (rpm / 6000) ** 2 * (own / meteringArea) ** 2;
  return 600 - carburetor - (runner.wallFriction === undefined ? 10 : 0);
};

const WORDS = ['restrictions', 'a.yaml', '--rpm', '3000:6000:1000'];

describe('valvetide restrictions', () => {
  it('leads with what is in the way over the band, and what comes next', async () => {
    const w = world({ files });
    expect(await main(WORDS, w.io, studyCore(torque))).toBe(EXIT.ok);
    const out = w.out().replaceAll('\n', ' ');
    // Explained is what is shown: this engine has no restrictor.
    expect(out).toContain('- carburetor: carburetor or throttle of 4 times');
    expect(out).not.toContain('- restrictor:');
    // Trapezoids: 28.2 N m of 561.8 in the mean, of which four times the area leaves a sixteenth.
    expect(out).toMatch(
      /^In the way over 3000 to 6000 rpm: the carburetor, \+4\.7 % of torque if it were free; next the manifold, \+1\.8 %/,
    );
    expect(w.out()).toMatch(/^air cleaner +is free$/m);
    expect(w.out()).toMatch(/^carburetor +\+4\.7 {2}#+$/m);
    expect(out).toContain(
      'What free means - air cleaner: no air cleaner - carburetor: carburetor or throttle of 4',
    );
  });

  it('names the one in the way at each speed', async () => {
    const w = world({ files });
    await main([...WORDS, '--csv'], w.io, studyCore(torque));
    const [header, ...rows] = w
      .out()
      .trim()
      .split('\r\n')
      .map((line) => line.split(','));
    const at = (name: string): number => header.indexOf(name);
    const governing = rows.filter((row) => row[at('governing')] === 'true');
    expect(governing.map((row) => [row[at('rpm')], row[at('element')]])).toEqual([
      ['3000', 'metering'],
      ['4000', 'metering'],
      ['5000', 'metering'],
      ['6000', 'metering'],
    ]);
    // Eleven elements at each of four speeds.
    expect(rows.length).toBe(44);
  });

  it('tells what is in the way after each change', async () => {
    const w = world({ files, columns: 160 });
    await main([...WORDS, '--changes', 'changes.yaml'], w.io, studyCore(torque));
    expect(w.out()).toMatch(/^Twice the carburetor +\+15\.6 +manifold +\+1\.7 +carburetor +\+1\.1 /m);
    expect(w.out()).toMatch(/^Larger plenum +0\.0 +carburetor /m);
  });

  it('gives the whole study as JSON, with what free means', async () => {
    const w = world({ files });
    await main([...WORDS, '--changes', 'changes.yaml', '--json'], w.io, studyCore(torque));
    const study = JSON.parse(w.out());
    expect(study).toMatchObject({ schemaVersion: 1, complete: true, band: { fromRpm: 3000, toRpm: 6000 } });
    expect(study.states.map(({ name }: { name: string }) => name)).toEqual([
      'As bought',
      'Twice the carburetor',
      'Larger plenum',
    ]);
    expect(study.meanings).toHaveLength(11);
    expect(study.states[0].bandGoverning.element).toBe('metering');
  });

  it('keeps what was done before an interrupt', async () => {
    const w = world({ files });
    expect(await main(WORDS, w.io, studyCore(torque, 3))).toBe(EXIT.interrupted);
    expect(w.out()).toContain('Interrupted: what was not run is left out.');
    expect(w.out()).toMatch(/^intake port +not run$/m);
    expect(w.err()).toContain('interrupted: 3 of 8 forecasts done');
  });

  it('writes nothing where not even the engine as it is was forecast', async () => {
    const w = world({ files });
    expect(await main([...WORDS, '--json'], w.io, studyCore(torque, 0))).toBe(EXIT.interrupted);
    expect(w.out()).toBe('');
  });
});
