/** Each worked figure on the theory pages of parts is what the program makes of the very case. */
import { describe, expect, it } from 'vitest';
import { INCH, INCH_OF_MERCURY, STANDARD_ATMOSPHERE } from '../../packages/core/src/base/constants.ts';
import { problemLine } from '../../packages/core/src/combination/problem.ts';
import { criticalPressureRatio, isentropicFluxFunction } from '../../packages/core/src/gas/isentropic.ts';
import { BENCH_AIR } from '../../packages/core/src/geometry/flowSheet.ts';
import { INTAKE_FLOW, pipeFanning, ROUGHNESS } from '../../packages/core/src/geometry/pipeFriction.ts';
import { endCorrection, OPEN_END, PLENUM_END } from '../../packages/core/src/geometry/tractProfile.ts';
import { balanceDuct, createDuct, decodeDuct, fillDuct } from '../../packages/core/src/network/duct.ts';
import { mergeVolume } from '../../packages/core/src/reading/defaults/header.ts';
import {
  DISCHARGE,
  dividerDischarge,
  SONIC_RECOVERY,
} from '../../packages/core/src/reading/defaults/inductionParts.ts';
import {
  OUTLET_TEMPERATURE,
  outletAreaFor,
  RETURNED,
} from '../../packages/core/src/reading/defaults/outlet.ts';
import { readCombination } from '../../packages/core/src/reading/readCombination.ts';
import { idealGas } from '../../packages/core/test/network/idealGas.ts';
import { readGuide } from './guides.ts';

const page = (name: string): string => readGuide(`docs/theory/${name}.md`).replaceAll(/\s+/g, ' ');
const squareMillimetres = (area: number): string => (1e6 * area).toFixed(0);
const disc = (diameter: number): number => (Math.PI / 4) * diameter ** 2;

describe('the page of volumes and merges', () => {
  it('has the estimate of a merge', () => {
    expect(page('volumes-and-merge')).toContain(
      `${(1e6 * mergeVolume(0.06).value).toFixed(0)} cc for one of 60 mm`,
    );
  });

  it('has what comes back into an open pipe', () => {
    const { value } = RETURNED.open;
    const back = value * OUTLET_TEMPERATURE + (1 - value) * 289;
    expect(page('volumes-and-merge')).toContain(
      `left at ${OUTLET_TEMPERATURE} K comes back from an open pipe in a room of 289 K at ${(back / 10).toFixed(0)}0 K`,
    );
  });
});

describe('the pages of ducts and their ends', () => {
  it('have the friction of a cast runner', () => {
    const [bore, length, rho, speed] = [0.04, 0.3, 1.2, 60];
    const area = disc(bore);
    const duct = createDuct(
      {
        name: 'runner',
        profile: [
          { x: 0, area },
          { x: length, area },
        ],
        cells: 1,
        fanning: pipeFanning(ROUGHNESS.cast, area, INTAKE_FLOW),
        wallTemperature: 350,
        heatMultiplier: 1,
      },
      { tables: idealGas({ R: 287, freshGamma: 1.4, burnedGamma: 1.4, heat: 0 }), take: () => 0 },
    );
    const y = new Float64Array(5);
    fillDuct(duct, y, rho * 287 * 300, 300, 0);
    y[1] = y[0] * speed;
    decodeDuct(duct, y);
    const d = new Float64Array(5);
    balanceDuct(duct, d);
    const force = -d[1];
    expect(page('duct')).toContain(`a \`shear\` of ${(force / speed / length).toFixed(4)} kg/(m s)`);
    expect(page('duct')).toContain(`300 mm of it take ${(force / area).toFixed(0)} Pa`);
  });

  it('have the lengths that waves see beyond an end', () => {
    const millimetres = (bore: number, k: number): string => (1e3 * endCorrection(disc(bore), k)).toFixed(1);
    expect(page('duct-ends')).toContain(`a runner of 50 mm is ${millimetres(0.05, PLENUM_END)} mm longer`);
    expect(page('duct-ends')).toContain(`a collector of 63 mm ${millimetres(0.063, OPEN_END)} mm longer`);
  });
});

describe('the page of carburetors and restrictors', () => {
  it('has a sonic restrictor of 20 mm', () => {
    const { pressure, gamma, gasConstant, temperature } = BENCH_AIR;
    const area = DISCHARGE.sonic * disc(0.02);
    const most = (area * pressure * isentropicFluxFunction(0, gamma)) / Math.sqrt(gasConstant * temperature);
    const drop =
      ((1 - SONIC_RECOVERY) * (1 - criticalPressureRatio(gamma)) * STANDARD_ATMOSPHERE) / INCH_OF_MERCURY;
    expect(page('induction-parts')).toContain(`an \`A\` of ${squareMillimetres(area)} mm2`);
    expect(page('induction-parts')).toContain(`chokes behind ${drop.toFixed(1)} inHg`);
    expect(page('induction-parts')).toContain(`more than ${(3600 * most).toFixed(0)} kg/h of air`);
  });

  it('has the slot that a spacer opens', () => {
    const slot = dividerDischarge().value * INCH * Math.sqrt(12 * INCH ** 2);
    expect(page('induction-parts')).toContain(
      `1 in of spacer over 12 in2 opens ${(slot / INCH ** 2).toFixed(2)} in2`,
    );
  });
});

describe('the page of exhausts and mufflers', () => {
  const passage = (kind: string): number => {
    const read = readCombination(`
engine: { bore: 86 mm, stroke: 86 mm, cylinders: 4 }
heads: { valvesPerCylinder: 4 }
chamber: { compression: 10.5 }
exhaust:
  collector: { length: 400 mm, inside: 60 mm }
  muffler: { backPressure: 1 psi, airflow: 97.5 l/s }
  box: { kind: ${kind}, pipe: { inside: 60 mm, length: 0.4 m } }
`);
    if (!read.ok) throw new Error(read.problems.map(problemLine).join('\n'));
    return read.value.exhaustSystem.muffler?.passage ?? Number.NaN;
  };

  it('has a muffler of 1 psi', () => {
    const alone = outletAreaFor(6894.757, 0.0975);
    const pipe = disc(0.06);
    const still = 1 / Math.hypot(1 / alone, 1 / pipe);
    const text = page('exhaust-parts');
    expect(text).toContain(
      `\`A_p\` is ${squareMillimetres(alone)} mm2 and \`A\` ${squareMillimetres(still)} mm2`,
    );
    expect(text).toContain(
      `at ${squareMillimetres(passage('chambered'))} mm2 with chambers and at ${squareMillimetres(passage('straight-through'))} mm2 straight, of the ${squareMillimetres(pipe)} mm2`,
    );
  });

  it('has the echo of a secondary and of a step, by the areas', () => {
    const [s1, s2, s3] = [0.041, 0.048, 0.06].map(disc);
    const echo = (4 * s1 * s3) / ((2 * s1 + s2) * (2 * s2 + s3));
    expect(page('exhaust-parts')).toContain(`(2 S2 + S3))\` = ${echo.toFixed(2)}`);
    const [sent, back] = [(2 * s1) / (s1 + s2), (s1 - s2) / (s1 + s2)];
    expect(page('exhaust-parts')).toContain(`\`T\` = ${sent.toFixed(2)} and \`R\` = ${back.toFixed(2)}`);
  });
});
