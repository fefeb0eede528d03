/** Trends with public-domain sources, on an invented race engine and a street one. */

import { portLift } from '../../../packages/core/src/assembly/portValve.ts';
import type { Combination } from '../../../packages/core/src/combination/combination.ts';
import type { MarchedPoint } from '../../../packages/core/src/forecast/curve.ts';
import { bigBlock } from '../../../packages/core/test/support/bigBlock.ts';
import { pointsOf } from '../../physics/engines.ts';
import { once, type PublishedSource } from '../publishedCase.ts';

/** Exponent of indicated power on the density of outside air at fixed temperature and timing. */
function densitySlope(): number {
  const base = bigBlock();
  const burn = { ...base.burn, timing: { mode: 'ca50', angle: 8 } as const, duration: 30 };
  const [thin, dense] = [80e3, 100e3].map((pressure) => {
    const weather = { ...base.weather, pressure };
    const [point] = pointsOf(bigBlock({ burn, weather, correction: 'none' }), [6000]);
    return point.imepBar * point.rpm;
  });
  return Math.log(dense / thin) / Math.log(100 / 80);
}

const SPEEDS = [6000, 7000, 8000, 9000, 11_000];
const points = once(() => pointsOf(bigBlock(), SPEEDS));

function at(rpm: number): MarchedPoint {
  return points()[SPEEDS.indexOf(rpm)];
}

/** Volumetric efficiency over what choked flow through the open valve allows, 0.5787 / Z x open degrees / 180. */
function shareOfChoked(rpm: number): number {
  const engine = bigBlock();
  const lift = portLift(engine.intake, 'intake', engine.friction.valvetrain);
  const point = at(rpm);
  return (point.volumetricEfficiency * point.inletMachIndex * 180) / (0.5787 * (lift.closes - lift.opens));
}

/**
 * The race engine with equal lobes and with short open stubs for an exhaust, its exhaust valve and port scaled so that exhaust flow over
 * intake flow at full lift is `ratio`.
 */
function withExhaustCapacity(ratio: number): Combination {
  const base = bigBlock();
  const { intake, exhaust, exhaustSystem } = base;
  const last = (area: readonly number[]): number => area[area.length - 1];
  const scale = (ratio * last(intake.flow.area)) / last(exhaust.flow.area);
  const area = exhaust.flow.area.map((a) => a * scale);
  // Ports and stubs as wide as the flow asks for.
  const portArea = scale * exhaust.portArea;
  const stub = 1.2 * portArea;
  return bigBlock({
    exhaust: { ...exhaust, portArea, flow: { ...exhaust.flow, area }, lobe: intake.lobe },
    exhaustSystem: {
      ...exhaustSystem,
      primary: { ...exhaustSystem.primary, length: 0.2, area: stub },
      collectors: null,
      outletArea: 0.95 * stub,
    },
  });
}

const powerWithCapacity = (ratio: number): number => pointsOf(withExhaustCapacity(ratio), [6500])[0].powerKw;
const equalCapacity = once(() => powerWithCapacity(1));
const halfCapacity = once(() => powerWithCapacity(0.5));

const share = { unit: '', decimals: 3, within: 0 };

export const trendCases: PublishedSource = {
  title: 'Trends',
  source:
    "NACA TR 46 (1919): indicated power with density; choked flow as a rigorous bound, and the JSME Mechanical Engineering Dictionary on the inlet Mach index: filling falls sharply above about 0.5; NACA TN 1365 (1947): output best with exhaust flow capacity about equal to the intake's, and flat around it",
  note: "On an invented race engine of 540 in3. Wall heat, which falls a little slower than density, is why the slope comes out above one. Exhaust capacity is varied behind short open stubs, with the intake's lobe on both valves; the source gives no figure for flat: a quarter of what half the capacity costs is taken here.",
  cases: [
    {
      what: 'slope of indicated power on density, log on log',
      value: 1,
      unit: '',
      decimals: 3,
      within: 0.03,
      compute: densitySlope,
    },
    {
      what: 'inlet Mach index at 6000 rpm, where the comparison below starts',
      value: 0.55,
      unit: '',
      decimals: 2,
      within: 0.05,
      compute: () => at(6000).inletMachIndex,
    },
    {
      what: 'volumetric efficiency over the choked bound at 6000 rpm',
      value: 1,
      ...share,
      relation: 'at most',
      compute: () => shareOfChoked(6000),
    },
    {
      what: 'volumetric efficiency over the choked bound at 11 000 rpm',
      value: 1,
      ...share,
      relation: 'at most',
      compute: () => shareOfChoked(11_000),
    },
    {
      what: 'fall of volumetric efficiency from 7000 to 8000 rpm',
      value: 0.03,
      ...share,
      relation: 'at least',
      compute: () => at(7000).volumetricEfficiency - at(8000).volumetricEfficiency,
    },
    {
      what: 'fall of volumetric efficiency from 8000 to 9000 rpm',
      value: 0.05,
      ...share,
      relation: 'at least',
      compute: () => at(8000).volumetricEfficiency - at(9000).volumetricEfficiency,
    },
    {
      what: 'volumetric efficiency at 9000 rpm over that at 6000',
      value: 0.9,
      ...share,
      relation: 'at most',
      compute: () => at(9000).volumetricEfficiency / at(6000).volumetricEfficiency,
    },
    {
      what: 'power at 9000 rpm over that at 8000',
      value: 1,
      ...share,
      relation: 'at most',
      compute: () => at(9000).powerKw / at(8000).powerKw,
    },
    {
      what: "power with an exhaust capacity of 0.5 of the intake's over that with equal ones",
      value: 0.95,
      ...share,
      relation: 'at most',
      compute: () => halfCapacity() / equalCapacity(),
    },
    ...[0.8, 1.25].map((ratio) => ({
      what: `loss of power with an exhaust capacity of ${ratio}, over the loss with one of 0.5`,
      value: 0.25,
      ...share,
      relation: 'at most' as const,
      compute: () =>
        (1 - powerWithCapacity(ratio) / equalCapacity()) / (1 - halfCapacity() / equalCapacity()),
    })),
    ...[0.8, 1.25].map((ratio) => ({
      what: `power with an exhaust capacity of ${ratio}, over that with equal ones`,
      value: 1.005,
      ...share,
      relation: 'at most' as const,
      compute: () => powerWithCapacity(ratio) / equalCapacity(),
    })),
  ],
};
