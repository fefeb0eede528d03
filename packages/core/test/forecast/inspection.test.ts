import { describe, expect, it } from 'vitest';
import type { Combination } from '../../src/combination/combination.ts';
import { inspectCombination } from '../../src/forecast/inspection.ts';
import { bigBlock } from '../support/bigBlock.ts';
import { cfmToArea } from '../support/units.ts';

const INCH = 0.0254;

/** A redline that no band reaches, so that piston speed does not end it either. */
const FAST = { ...bigBlock().limits, redline: 20_000 };

/** 4.000 x 3.480 in, 5.700 in rods: the size most of the trade's worked figures are for. */
function smallBlock(change: Partial<Combination> = {}): Combination {
  const base = bigBlock();
  const bore = 4 * INCH;
  const stroke = 3.48 * INCH;
  const swept = (Math.PI / 4) * bore ** 2 * stroke;
  return bigBlock({
    block: { ...base.block, bore, stroke, rodLength: 5.7 * INCH },
    chamber: { ...base.chamber, compressionRatio: 10.5, clearanceVolume: swept / 9.5 },
    ...change,
  });
}

function ruleOf(combination: Combination, code: string) {
  const rule = inspectCombination(combination).rules.find((candidate) => candidate.code === code);
  if (rule === undefined) throw new Error(`no rule ${code}`);
  return rule;
}

describe('inspectCombination(combination)', () => {
  it('gives displacement and compression of the sheets', () => {
    const { block, compression } = inspectCombination(bigBlock());
    expect(block.displacementCm3 / 2.54 ** 3).toBeCloseTo(540.75, 2);
    expect(block.rodOverStroke).toBeCloseTo(6.385 / 4.25, 10);
    expect(compression.ratio).toBe(11.3);
  });

  it('gives the form of the chamber, and more squish velocity for more squish', () => {
    const { chamber } = inspectCombination(bigBlock());
    expect(chamber).toMatchObject({ shape: 'wedge', plug: 'side', squishArea: 0.08, squishHeightMm: 1.4 });
    const more = inspectCombination(bigBlock({ chamber: { ...bigBlock().chamber, squishArea: 0.16 } }));
    expect(more.chamber.squishVelocity / chamber.squishVelocity).toBeGreaterThan(1.5);
    expect(more.chamber.squishVelocity / chamber.squishVelocity).toBeLessThan(2);
  });

  it('gives the card events at 0.050 in from duration and centreline', () => {
    const { cam } = inspectCombination(bigBlock());
    expect(cam.intake.at050?.durationDeg).toBeCloseTo(275, 1);
    expect(cam.intake.at050?.opensDeg).toBeCloseTo(29.5, 1);
    expect(cam.intake.at050?.closesDeg).toBeCloseTo(65.5, 1);
    expect(cam.exhaust.at050?.opensDeg).toBeCloseTo(80, 1);
    expect(cam.exhaust.at050?.closesDeg).toBeCloseTo(28, 1);
    expect(cam.separationDeg).toBe(112);
    expect(cam.advanceDeg).toBe(4);
  });

  it('gives overlap at 0.050 in as half the durations less twice the separation', () => {
    expect(inspectCombination(bigBlock()).cam.overlap050Deg).toBeCloseTo((275 + 288) / 2 - 2 * 112, 1);
  });

  it('opens the valve off its seat before and closes it after 0.050 in of lobe', () => {
    const { intake, exhaust } = inspectCombination(bigBlock()).cam;
    for (const side of [intake, exhaust]) {
      expect(side.atSeat?.durationDeg).toBeGreaterThan(side.at050?.durationDeg ?? Number.NaN);
    }
  });

  it('takes lash and bending off the lift of the valve', () => {
    const { intake } = inspectCombination(bigBlock()).cam;
    expect(intake.valveLiftMm / 25.4).toBeCloseTo(0.42 * 1.7 - 0.018 - 0.01, 6);
    expect(intake.liftOverDiameter).toBeCloseTo(0.686 / 2.3, 6);
  });

  it('says nothing at 0.050 in where the lobe never rises that far', () => {
    const base = bigBlock();
    const stub = {
      ...base.intake,
      lobe: { kind: 'card', points: [{ duration: 220, lift: 0.006 * INCH }], maxLift: 0.045 * INCH },
    } as const;
    const { cam, compression } = inspectCombination(bigBlock({ intake: stub }));
    expect(cam.intake.at050).toBeNull();
    expect(cam.overlap050Deg).toBeNull();
    expect(compression.trapped.map(({ height }) => height)).toEqual(['0.006 in of valve lift']);
  });

  // Worked from the slider-crank: 10.5:1, 3.48 in stroke, 5.70 in rod, by closing angle after bottom centre.
  it.each([
    [50, 9.23],
    [60, 8.68],
    [70, 8.03],
    [80, 7.29],
  ])('gives the compression left from a closing of %d deg after bottom centre as %f', (closes, expected) => {
    const base = smallBlock();
    const intake = { ...base.intake, centreline: 180 + closes - 275 / 2 };
    const trapped = inspectCombination(smallBlock({ intake })).compression.trapped;
    const at050 = trapped.find(({ height }) => height === '0.050 in of lobe lift');
    expect(at050?.closesDegAbdc).toBeCloseTo(closes, 1);
    expect(Math.abs((at050?.ratio ?? 0) - expected)).toBeLessThan(0.01);
  });

  // 577 cfm of demand against the rating, squared, times 1.5 inHg.
  it.each([
    [500, 2.0],
    [750, 0.89],
    [1000, 0.5],
  ])('reckons the depression of a %d cfm carburetor on 350 in3 at 6000 rpm as %f inHg', (cfm, inHg) => {
    const base = smallBlock();
    // The drop in inches of water: 1.5 inHg is 20.392 inH2O.
    const induction = { ...base.induction, meteringArea: cfmToArea(cfm, (1.5 * 3386.389) / 249.08891) };
    const inspection = inspectCombination(smallBlock({ induction }));
    const at = inspection.speeds[0];
    const atSixThousand = at.depressionInHg * (6000 / at.rpm) ** 2;
    expect(inspection.flow.inductionCfm15).toBeCloseTo(cfm, 0);
    expect(Math.abs(atSixThousand - inHg)).toBeLessThan(0.006);
  });

  it('reckons the depression of fewer than four cylinders while they draw', () => {
    const of = (cylinders: number, each: boolean): number => {
      const base = smallBlock();
      const block = { ...base.block, cylinders };
      const plenums = [{ volume: 1e-3, cylinders: Array.from({ length: cylinders }, (_, i) => i + 1) }];
      const own = plenums[0].cylinders.map((one) => ({ volume: 1e-4, cylinders: [one] }));
      const induction = { ...base.induction, plenums: each ? own : plenums };
      const [{ depressionInHg, rpm }] = inspectCombination(smallBlock({ block, induction })).speeds;
      return depressionInHg / (rpm * cylinders) ** 2;
    };
    expect(of(4, false) / of(8, false)).toBeCloseTo(1, 9);
    expect(of(2, false) / of(8, false)).toBeCloseTo(4, 9);
    // A quarter of the time, and the flow of a cylinder at a time behind metering of its own.
    expect(of(8, true) / of(8, false)).toBeCloseTo(16, 9);
  });

  it('reckons the depression by the plenum with the widest gaps', () => {
    const base = smallBlock();
    const numbered = (from: number, to: number) => Array.from({ length: to - from + 1 }, (_, i) => from + i);
    const depression = (last: number): number => {
      const plenums = [numbered(1, last), numbered(last + 1, 8)].map((cylinders) => ({
        volume: 1e-3,
        cylinders,
      }));
      const [first] = inspectCombination(smallBlock({ induction: { ...base.induction, plenums } })).speeds;
      return first.depressionInHg / first.rpm ** 2;
    };
    expect(depression(2) / depression(4)).toBeCloseTo(4, 9);
    expect(depression(6) / depression(4)).toBeCloseTo(4, 9);
  });

  it('gives the mean piston speed as stroke times rpm over 6, ft/min', () => {
    const { speeds } = inspectCombination(smallBlock());
    for (const { rpm, meanPistonSpeedMs } of speeds) {
      expect((meanPistonSpeedMs * 60) / 0.3048).toBeCloseTo((3.48 * rpm) / 6, 6);
    }
  });

  it("is at 245 ft/s in the port at the speed of the trade's area rule", () => {
    const combination = smallBlock();
    const rule = ruleOf(combination, 'port-speed');
    const { speeds } = inspectCombination(combination);
    const velocity = (speeds[0].portVelocityMs / speeds[0].rpm) * rule.high;
    expect(velocity / 0.3048).toBeCloseTo(245.0, 1);
  });

  it('has half the inlet Mach index with twice the flow, and a higher band', () => {
    const base = bigBlock({ limits: FAST });
    const flow = { ...base.intake.flow, area: base.intake.flow.area.map((area) => 2 * area) };
    const before = inspectCombination(base);
    const after = inspectCombination(bigBlock({ intake: { ...base.intake, flow }, limits: FAST }));
    const indexPerRpm = (inspection: typeof before) =>
      inspection.speeds[0].inletMachIndex / inspection.speeds[0].rpm;
    expect(indexPerRpm(after) / indexPerRpm(before)).toBeCloseTo(0.5, 6);
    expect(after.band.toRpm).toBeGreaterThan(before.band.toRpm);
  });

  it('gives an inlet Mach index of bore area times piston speed over mean area times sound speed', () => {
    const { speeds, cam } = inspectCombination(bigBlock());
    const { rpm, meanPistonSpeedMs, inletMachIndex } = speeds[speeds.length - 1];
    expect(rpm).toBeGreaterThan(4000);
    const boreArea = (Math.PI / 4) * (4.5 * INCH) ** 2;
    // Speed of sound at 288.7 K: 340.6 m/s (US Standard Atmosphere 1976 gives 340.29 at 288.15 K).
    const expected = (boreArea * meanPistonSpeedMs) / (cam.intake.meanAreaMm2 * 1e-6 * 340.6);
    expect(inletMachIndex).toBeCloseTo(expected, 3);
  });

  it('gives back the flow of the sheet at the highest lift', () => {
    // 0.686 in lies between the sheet's last two points, 390 cfm at 0.600 and 415 at 0.700.
    const { intakeCfm28 } = inspectCombination(bigBlock()).flow;
    expect(intakeCfm28).toBeGreaterThan(405);
    expect(intakeCfm28).toBeLessThan(415);
  });

  it('gives the flow of both sides at 28 inH2O through the largest area the cam reaches', () => {
    const { flow, cam } = inspectCombination(bigBlock());
    expect(cfmToArea(flow.intakeCfm28) / (cam.intake.peakAreaMm2 * 1e-6)).toBeCloseTo(1, 4);
    expect(cfmToArea(flow.exhaustCfm28) / (cam.exhaust.peakAreaMm2 * 1e-6)).toBeCloseTo(1, 4);
    expect(flow.exhaustOverIntake).toBeCloseTo(cam.exhaust.peakAreaMm2 / cam.intake.peakAreaMm2, 12);
  });

  it('chooses a lower band behind a carburetor too small for the valves, where it takes 10 inHg', () => {
    const wide = smallBlock();
    const induction = { ...wide.induction, meteringArea: cfmToArea(210, 20.39) };
    const { band, speeds } = inspectCombination(smallBlock({ induction }));
    const [first] = speeds;
    const peak = first.rpm * Math.sqrt(10 / first.depressionInHg);
    expect(band.toRpm).toBeLessThan(inspectCombination(wide).band.toRpm);
    expect(Math.abs(band.toRpm - 1.2 * peak)).toBeLessThanOrEqual(band.stepRpm);
    expect(band.reason).toContain(`around ${Math.round(peak / 50) * 50} rpm`);
    expect(band.reason).toContain('takes 10 inHg');
  });

  it('chooses a band with the inlet Mach index of 0.63 inside it', () => {
    for (const combination of [bigBlock({ limits: FAST }), smallBlock({ limits: FAST })]) {
      const { speeds } = inspectCombination(combination);
      expect(speeds[0].inletMachIndex).toBeLessThan(0.3);
      expect(speeds[speeds.length - 1].inletMachIndex).toBeGreaterThan(0.63);
      expect(speeds.length).toBeGreaterThan(6);
      expect(speeds.length).toBeLessThan(30);
    }
  });

  it('works the flow rules for 43.7 in3 and a given flow', () => {
    const flow = inspectCombination(smallBlock()).flow.intakeCfm28;
    expect(ruleOf(smallBlock(), 'flow-power').low).toBeCloseTo(0.257 * 8 * flow, 6);
    expect(ruleOf(smallBlock(), 'flow-speed').high).toBeCloseTo((1195 * flow) / 43.73, -1);
  });

  // 1-3/4 in tubes of 0.049 in wall on 43.75 in3: 4321 rpm.
  it("works the trade's primary rule for a 1.750 in tube as 4321 rpm", () => {
    const base = smallBlock();
    const area = (Math.PI / 4) * ((1.75 - 0.098) * INCH) ** 2;
    const exhaustSystem = { ...base.exhaustSystem, primary: { ...base.exhaustSystem.primary, area } };
    expect(Math.abs(ruleOf(smallBlock({ exhaustSystem }), 'primary-speed').high - 4321)).toBeLessThan(4);
  });

  it('asks for 102 octane at 10.5:1, less 8 in a modern chamber', () => {
    expect(ruleOf(smallBlock(), 'octane')).toMatchObject({ low: 94, high: 102, unit: 'RON' });
  });

  it('asks for 1.7 to 1.9 of four primaries in one collector, and keeps the ratio of areas for three', () => {
    const base = bigBlock();
    const system = base.exhaustSystem;
    if (system.collectors === null) throw new Error('the big block has collectors');
    expect(ruleOf(base, 'collector')).toMatchObject({ low: 1.7, high: 1.9 });
    const collectors = {
      ...system.collectors,
      groups: [
        [1, 2, 3],
        [4, 5, 6],
      ],
    };
    const six = ruleOf(bigBlock({ exhaustSystem: { ...system, collectors } }), 'collector');
    expect(six.low).toBeCloseTo(1.472, 3);
    expect(six.high).toBeCloseTo(1.645, 3);
  });

  it('has no collector rule for open primaries', () => {
    const base = bigBlock();
    const open = inspectCombination(bigBlock({ exhaustSystem: { ...base.exhaustSystem, collectors: null } }));
    expect(open.rules.some(({ code }) => code === 'collector')).toBe(false);
    expect(inspectCombination(base).rules.some(({ code }) => code === 'collector')).toBe(true);
  });

  it('hands the ledger and the doubts through', () => {
    const assumed = [{ path: 'engine.rod', value: 5.7, unit: 'in', spread: 0.1, reason: 'a guess' }];
    const warnings = [{ code: 'x', path: 'engine', message: 'look again' }];
    expect(inspectCombination(bigBlock({ assumed, warnings }))).toMatchObject({ assumed, warnings });
  });

  it('is plain data with finite numbers only', () => {
    const inspection = inspectCombination(bigBlock());
    expect(JSON.parse(JSON.stringify(inspection))).toEqual(inspection);
  });

  it('ends the speeds that nobody names at the redline, or where few parts bear the piston speed', () => {
    const { block, limits, intake } = bigBlock();
    const free = { ...intake.flow, area: intake.flow.area.map((area) => 6 * area) };
    const open = {
      intake: { ...intake, flow: free },
      induction: { ...bigBlock().induction, meteringArea: 0.05 },
    };
    const { band } = inspectCombination(bigBlock(open));
    // 28 m/s at twice the stroke a turn.
    const bears = (30 * 28) / block.stroke;
    expect(band.toRpm).toBeLessThanOrEqual(bears);
    expect(band.toRpm).toBeGreaterThan(bears - band.stepRpm);
    expect(band.reason).toContain('piston speed');
    const held = inspectCombination(bigBlock({ ...open, limits: { ...limits, redline: 5600 } })).band;
    expect([held.toRpm, held.fromRpm <= held.toRpm]).toEqual([5500, true]);
    expect(held.reason).toContain('redline');
  });

  it('ends them a quarter beyond a rated speed that the file states, where no redline decides', () => {
    const free = inspectCombination(bigBlock()).band;
    const rated = (ratedSpeed: number, redline: number | null = null) =>
      inspectCombination(bigBlock({ ratedSpeed, limits: { ...bigBlock().limits, redline } })).band;
    // 1.25 * 4400 = 5500, as many steps; 5750 and 5900 end there too, 6000 at 7500.
    expect([rated(4400).toRpm, rated(4400).mostRpm]).toEqual([5500, 5500]);
    expect(rated(4400).toRpm).toBeLessThan(free.toRpm);
    expect(rated(4400).reason).toContain(', up to 1.25 times the rated speed');
    expect(rated(4400, 6500).toRpm).toBe(6500);
    const entry = { path: 'engine.ratedSpeed', value: 4400, unit: 'rpm', spread: 500, reason: '' };
    expect(inspectCombination(bigBlock({ ratedSpeed: 4400, assumed: [entry] })).band).toEqual(free);
    // One that lies beyond what the valves pass ends nothing.
    expect({ ...rated(9000), mostRpm: 0 }).toEqual({ ...free, mostRpm: 0 });
  });
});
