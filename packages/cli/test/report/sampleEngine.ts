/** A made-up engine for reports: an inspection, a loop of two polytropes and two lobes. */
import type { CycleTrace, Inspection, ValveUse, ValveUseSide } from '@valvetide/core';

const side = (liftMm: number, centrelineDeg: number): Inspection['cam']['intake'] => ({
  lobeLiftMm: liftMm / 1.5,
  rockerRatio: 1.5,
  lashMm: 0,
  valveLiftMm: liftMm,
  liftOverDiameter: 0.27,
  centrelineDeg,
  at050: { durationDeg: 230, opensDeg: 11, closesDeg: 39 },
  atSeat: { durationDeg: 280, opensDeg: 36, closesDeg: 64 },
  peakAreaMm2: 1300,
  meanAreaMm2: 800,
});

export function sampleInspection(change: Partial<Inspection> = {}): Inspection {
  return {
    combination: 'sample',
    block: { cylinders: 8, boreMm: 102.4, strokeMm: 88.4, rodOverStroke: 1.64, displacementCm3: 5819 },
    compression: { ratio: 10.5, clearanceVolumeCm3: 76.6, trapped: [] },
    chamber: { shape: 'wedge', plug: 'side', squishArea: 0.18, squishHeightMm: 1.35, squishVelocity: 2 },
    cam: {
      separationDeg: 110,
      advanceDeg: 4,
      overlap050Deg: 10,
      overlapSeatDeg: 60,
      intake: side(14.2, 106),
      exhaust: side(14, 114),
    },
    flow: {
      intakeCfm28: 250,
      exhaustCfm28: 190,
      exhaustOverIntake: 0.76,
      intakePortMm2: 1400,
      exhaustPortMm2: 1000,
      inductionKind: 'carburetor',
      inductionCount: 1,
      inductionCfm15: 750,
    },
    speeds: [],
    band: { fromRpm: 3000, toRpm: 7000, stepRpm: 500, mostRpm: 7000, reason: 'chosen for the test' },
    rules: [],
    assumed: [],
    warnings: [],
    ...change,
  };
}

/** Every 10 degrees: pressure falls with volume as p V^1.3, higher on the way out; gas exchange near one bar. */
export function sampleTrace(change: Partial<CycleTrace> = {}): CycleTrace {
  const angleDeg = Array.from({ length: 73 }, (_, i) => -360 + i * 10);
  const volumeM3 = angleDeg.map((a) => 8e-5 + 3.6e-4 * (1 - Math.cos((a * Math.PI) / 180)));
  const closed = (a: number, v: number): number => (a < 0 ? 1e5 : 4e5) * (8e-4 / v) ** 1.3;
  return {
    rpm: 5000,
    fidelity: 'representative',
    cylinder: 1,
    status: 'settled',
    angleDeg,
    volumeM3,
    pressurePa: angleDeg.map((a, i) =>
      Math.abs(a) <= 180 ? closed(a, volumeM3[i]) : a < 0 ? 0.92e5 : 1.15e5,
    ),
    temperatureK: angleDeg.map(() => 600),
    intakeLiftM: angleDeg.map(() => 0),
    exhaustLiftM: angleDeg.map(() => 0),
    ...change,
  };
}

export function sampleValves(): ValveUse {
  const angleDeg = Array.from({ length: 361 }, (_, i) => i * 2);
  const lobe = (centre: number, peak: number): readonly number[] =>
    angleDeg.map((a) => Math.max(0, peak * Math.cos(((a - centre) * Math.PI) / 280)));
  const use = (centre: number, peakLiftMm: number, cfm: number): ValveUseSide => ({
    valveDiameterMm: 52,
    peakLiftMm,
    measuredToMm: 13,
    liftMm: lobe(centre, peakLiftMm),
    flow: Array.from({ length: 25 }, (_, i) => ({
      liftMm: (peakLiftMm * i) / 24,
      cfm28: cfm * Math.sin((i * Math.PI) / 48),
    })),
    dwell: Array.from({ length: 10 }, (_, i) => ({
      fromMm: (peakLiftMm * i) / 10,
      toMm: (peakLiftMm * (i + 1)) / 10,
      crankDeg: 20 + i,
    })),
  });
  return {
    angleDeg,
    pistonDropMm: angleDeg.map((a) => 44 * (1 - Math.cos((a * Math.PI) / 180))),
    intake: use(466, 14.2, 250),
    exhaust: use(246, 14, 190),
  };
}
