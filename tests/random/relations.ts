/** What must not matter, and what must not help: each looks at an engine again, asked for or built in another way. */
import type { Combination } from '../../packages/core/src/combination/combination.ts';
import { MARCH_DEFAULTS } from '../../packages/core/src/cycle/march.ts';
import type { Curve, MarchedPoint } from '../../packages/core/src/forecast/curve.ts';
import { marchedCurve } from '../../packages/core/src/forecast/curveMarch.ts';
import { forecast } from '../../packages/core/src/forecast/forecast.ts';
import { readCombination } from '../../packages/core/src/reading/readCombination.ts';
import type { RandomEngine } from './randomEngine.ts';
import { type Section, turnedAround, type Units, written } from './sizes.ts';

/** The faults it finds, given the engine and its forecast. */
export type Relation = (engine: RandomEngine, combination: Combination, curve: Curve) => readonly string[];

/** How far the same engine may differ from itself [-], over what its pressures make at most. */
const SAME = 1e-5;
/** How much better may come of what can only be worse [-]: the tolerance of steps and cycles. */
const NOISE = 2e-3;

/** The first settled point and its speed; nothing is asked of an engine that has none. */
function firstSettled(curve: Curve): MarchedPoint | null {
  const first = curve.points.find((point) => point.status === 'settled');
  return first === undefined || first.status === 'lost' ? null : first;
}

function read(sections: Section, units: Units): Combination | null {
  const result = readCombination(JSON.stringify(written(sections, units)));
  return result.ok ? result.value : null;
}

function pointAt(combination: Combination, rpm: number): MarchedPoint | null {
  const [point] = forecast(combination, { rpm: [rpm] }).points;
  return point.status === 'settled' ? point : null;
}

/** Of the gas alone, so that a torque near zero does not make a small difference large. */
export const relative = (a: MarchedPoint, b: MarchedPoint): number => (b.bmepBar - a.bmepBar) / a.imepBar;

const same =
  (what: string, again: (engine: RandomEngine, combination: Combination) => Combination | null): Relation =>
  (engine, combination, curve) => {
    const point = firstSettled(curve);
    if (point === null) return [];
    const other = again(engine, combination);
    if (other === null) return [`${what} is refused`];
    const second = pointAt(other, point.rpm);
    if (second === null) return [`${what} does not settle at ${point.rpm} rpm`];
    const difference = relative(point, second);
    return Math.abs(difference) <= SAME
      ? []
      : [`${what} differs by ${difference.toExponential(1)} at ${point.rpm} rpm`];
  };

const inInches = same('the same engine in inches', (engine) => read(engine.sections, 'inch'));
const fieldsTurned = same('the same file with its fields turned around', (engine) =>
  read(turnedAround(engine.sections), 'metric'),
);
const alone = same('the same speed by itself', (_engine, combination) => combination);

const never =
  (what: string, worse: (combination: Combination) => Combination | null, past: number): Relation =>
  (engine, combination, curve) => {
    const point = firstSettled(curve);
    const other = worse(combination);
    // An engine that hardly turns itself over gains where less gas has to be pumped.
    if (point === null || other === null || point.rpm < past * engine.ratedRpm || point.bmepBar < 2)
      return [];
    const second = pointAt(other, point.rpm);
    if (second === null) return [];
    const gain = relative(point, second);
    return gain <= NOISE ? [] : [`${what} gains ${(100 * gain).toFixed(2)} % at ${point.rpm} rpm`];
  };

/** Timing held, so that an octane that becomes enough is not taken for air that helps. */
const held = (combination: Combination): Combination => ({
  ...combination,
  correction: 'none',
  burn: { ...combination.burn, timing: { mode: 'ca50', angle: 9 } },
});

const atHeldTiming =
  (relation: Relation): Relation =>
  (engine, combination, curve) => {
    const point = firstSettled(curve);
    if (point === null) return [];
    const fixed = held(combination);
    return relation(engine, fixed, forecast(fixed, { rpm: [point.rpm] }));
  };

const thinner = atHeldTiming(
  never(
    'air a tenth thinner',
    (combination) => {
      const { weather } = combination;
      const [pressure, vapourPressure] = [0.9 * weather.pressure, 0.9 * weather.vapourPressure];
      return { ...combination, weather: { ...weather, pressure, vapourPressure } };
    },
    0,
  ),
);

/** Cylinders below which a plenum empties and fills with each of them, and its volume in displacements that keeps it from that. */
const FEW = 4;
const STEADY = 20;

/**
 * Few cylinders on one plenum with one that keeps its pressure: else it empties and fills with each of them, and a smaller hole
 * may tune that better. Of a twin at 1.4 times its rated speed a fifth less area gains 0.4 %, at half the step and twice the
 * cells too; with a plenum four times as large nothing.
 */
function withSteadyPlenum(combination: Combination): Combination {
  const { block, induction } = combination;
  if (block.cylinders >= FEW || induction.plenums.length > 1) return combination;
  const displacement = (Math.PI / 4) * block.bore * block.bore * block.stroke * block.cylinders;
  const plenums = induction.plenums.map((plenum) => ({
    ...plenum,
    volume: Math.max(plenum.volume, STEADY * displacement),
  }));
  return { ...combination, induction: { ...induction, plenums } };
}

const aFifthSmaller = atHeldTiming(
  never(
    'a carburetor a fifth smaller',
    (combination) => {
      const { induction } = combination;
      if (induction.plenums.length > 1) return null;
      return { ...combination, induction: { ...induction, meteringArea: 0.8 * induction.meteringArea } };
    },
    1,
  ),
);
const smaller: Relation = (engine, combination, curve) =>
  aFifthSmaller(engine, withSteadyPlenum(combination), curve);
const rubbing = atHeldTiming(
  never(
    'a tenth more friction',
    (combination) => {
      const { friction } = combination;
      return { ...combination, friction: { ...friction, multiplier: 1.1 * friction.multiplier } };
    },
    0,
  ),
);

/** How far steps a quarter as long may move torque [-], from slow running to twice the rated speed. */
const BY_STEPS = 3e-3;
const SLOWEST = 500;

const quarterSteps: Relation = (engine, combination, curve) => {
  const point = firstSettled(curve);
  if (point === null || point.rpm < SLOWEST || point.rpm > 2 * engine.ratedRpm) return [];
  const { courant, maxStep, maxBurnStep } = MARCH_DEFAULTS;
  const march = {
    ...MARCH_DEFAULTS,
    courant: courant / 4,
    maxStep: maxStep / 4,
    maxBurnStep: maxBurnStep / 4,
  };
  const [fine] = marchedCurve(combination, { rpm: [point.rpm], march }).points;
  if (fine.status !== 'settled') return [`a quarter of the step does not settle at ${point.rpm} rpm`];
  const moved = relative(point, fine);
  return Math.abs(moved) <= BY_STEPS
    ? []
    : [`a quarter of the step moves torque by ${(100 * moved).toFixed(2)} % at ${point.rpm} rpm`];
};

export const RELATIONS: Readonly<Record<string, Relation>> = {
  inInches,
  fieldsTurned,
  alone,
  thinner,
  smaller,
  rubbing,
  quarterSteps,
};
