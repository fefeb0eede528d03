/** How the engine is run: fuel, mixture, burning, walls, friction, weather, correction. */

import { middleOf } from '../../combination/atSpeed.ts';
import { together } from '../../combination/carburetion.ts';
import type { BySpeed, Combination, Fuel, Induction, Limits } from '../../combination/combination.ts';
import type { Burn, CorrectionStandard, Friction, Walls, Weather } from '../../combination/running.ts';
import { saturationPressure, vapourPressureOf } from '../../gas/air.ts';
import { stoichiometricAirFuelRatio } from '../../gas/freshGas.ts';
import { fuelNamed } from '../../gas/fuels.ts';
import { troutonBoilingPoint } from '../../gas/liquidFuel.ts';
import { bearingSizes } from '../../processes/friction.ts';
import { fuelName } from '../defaults/fuel.ts';
import * as running from '../defaults/running.ts';
import { bearingsOfCamshaft, camshafts, frictionValvetrain } from '../defaults/valvetrain.ts';
import type { CombinationFile } from '../schema/combinationFile.ts';
import type { ResolveContext } from './context.ts';
import type { ResolvedBlock } from './resolveBlock.ts';
import type { ResolvedGear } from './resolveCam.ts';

export function resolveFuel({ file, ledger }: ResolveContext, compression: number): Fuel {
  if (file.fuel !== undefined && typeof file.fuel !== 'string') {
    const { name, atoms, heatingValue, latentHeat, researchOctane, motorOctane } = file.fuel;
    return {
      name,
      composition: null,
      atoms,
      lowerHeatingValue: heatingValue,
      latentHeat,
      boilingPoint: troutonBoilingPoint(latentHeat, atoms),
      researchOctane,
      motorOctane,
    };
  }
  return fuelNamed(ledger.word('fuel', file.fuel, () => fuelName(compression)));
}

/** Lambda as the file says it, or by the air-fuel ratio; undefined where it says neither. */
export function statedLambda({ mixture }: CombinationFile, fuel: Fuel): number | BySpeed | undefined {
  const ratio = mixture?.airFuelRatio;
  if (ratio === undefined) return mixture?.lambda;
  const one = stoichiometricAirFuelRatio(fuel);
  if (typeof ratio === 'number') return ratio / one;
  return { rpm: ratio.rpm, value: ratio.value.map((value) => value / one) };
}

export function resolveLambda({ file, ledger }: ResolveContext, fuel: Fuel): number {
  return ledger.number('mixture.lambda', middleOf(statedLambda(file, fuel)), running.lambda);
}

/**
 * Mixtures of the cylinders beside that of all, nothing where they are alike; or how far apart they are where the file doesn't say and one
 * carburetor deals them out.
 */
export function resolveDifferences(
  { file, ledger }: ResolveContext,
  fuel: Fuel,
  induction: Induction,
): Pick<Combination, 'lambdaDifferences' | 'mixtureScatter'> {
  const { differences, scatter } = file.mixture ?? {};
  if (differences === undefined) {
    if (!dealsOut(fuel, induction)) return {};
    return {
      mixtureScatter: ledger.quantity('mixture.scatter', scatter, 'share', '%', running.mixtureScatter),
    };
  }
  return differences.every((each) => each === 0) ? {} : { lambdaDifferences: differences };
}

/** Whether several cylinders share what drops a carburetor makes: a gas has none, and a barrel for each deals nothing out. */
function dealsOut({ latentHeat }: Fuel, induction: Induction): boolean {
  return induction.venturiArea !== undefined && latentHeat > 0 && together(induction) > 1;
}

export function resolveBurn({ file, ledger }: ResolveContext): Burn {
  const section = file.burn ?? {};
  const heard = section.heard ?? [];
  return {
    timing: timing({ file, ledger }),
    durationMultiplier: ledger.number(
      'burn.durationMultiplier',
      section.durationMultiplier,
      running.durationMultiplier,
    ),
    duration: section.duration ?? null,
    efficiency: ledger.quantity('burn.efficiency', section.efficiency, 'share', '%', running.burnEfficiency),
    octaneOffset: ledger.number('burn.octaneOffset', section.octaneOffset, () =>
      running.octaneOffset(heard.some(({ knock }) => knock === 'trace') ? 'heard' : 'model'),
    ),
    heard: heard.map(({ rpm, advance, octane, knock }) => ({ rpm, advance, octane: octane ?? null, knock })),
  };
}

function timing({ file, ledger }: Pick<ResolveContext, 'file' | 'ledger'>): Burn['timing'] {
  const { timing: word, spark, ca50 } = file.burn ?? {};
  const given = spark !== undefined ? 'spark' : ca50 !== undefined ? 'ca50' : undefined;
  const mode = ledger.word('burn.timing', word ?? given, running.timing);
  if (mode === 'spark' && spark !== undefined) {
    const sorted = [...spark].sort((a, b) => a.rpm - b.rpm);
    return { mode, rpm: sorted.map((point) => point.rpm), advance: sorted.map((point) => point.advance) };
  }
  if (mode === 'ca50' && ca50 !== undefined) return { mode, angle: ca50 };
  return { mode: mode === 'best-torque' ? 'best-torque' : 'knock-limited' };
}

export function resolveWalls({ file, ledger }: ResolveContext): Walls {
  const section = file.heat ?? {};
  const wall = (part: 'head' | 'piston' | 'liner'): number =>
    ledger.quantity(`heat.${part}`, section[part], 'temperature', 'K', () =>
      running.wallTemperature(part, section.coolant),
    );
  return {
    model: ledger.word<Walls['model']>('heat.model', section.model, running.wallModel),
    multiplier: ledger.number('heat.multiplier', section.multiplier, running.wallMultiplier),
    head: wall('head'),
    piston: wall('piston'),
    liner: wall('liner'),
  };
}

export function resolveFriction(
  { file, ledger }: ResolveContext,
  resolved: ResolvedBlock,
  gear: ResolvedGear,
  shafts: () => number,
  ratedSpeed: () => number,
): Friction {
  const section = file.friction ?? {};
  const accessories = ledger.flag('friction.accessories', section.accessories, running.ACCESSORIES);
  const sizes = bearingSizes(resolved.block.bore, resolved.block.stroke);
  const size = (field: keyof typeof sizes): number =>
    ledger.quantity(`friction.${field}`, section[field], 'length', 'in', () => ({
      value: sizes[field],
      spread: 0.1 * sizes[field],
      reason: 'usual share of the bore, diameters of a short stroke, in production engines; from memory',
    }));
  const { cylinders } = resolved.block;
  const banks = resolved.banks.length;
  const throws = resolved.layout === 'v' ? cylinders / 2 : cylinders;
  return {
    valvetrain: ledger.word('friction.valvetrain', section.valvetrain, () =>
      frictionValvetrain(gear.type, gear.lifter),
    ),
    multiplier: ledger.number('friction.multiplier', section.multiplier, running.frictionMultiplier),
    camBearings: shafts() * bearingsOfCamshaft(gear.type, cylinders, banks),
    accessories,
    driveRatio: accessories ? running.driveRatio(ratedSpeed()) : 1,
    mainBearings: ledger.number('friction.mainBearings', section.mainBearings, () => ({
      value: Math.floor(throws) + 1,
      spread: null,
      reason: 'one beside each throw of the crank',
    })),
    mainDiameter: size('mainDiameter'),
    mainLength: size('mainLength'),
    rodDiameter: size('rodDiameter'),
    rodLength: size('rodLength'),
  };
}

/** Camshafts of the whole engine. */
export function resolveCamshafts(
  { file, ledger }: Pick<ResolveContext, 'file' | 'ledger'>,
  banks: number,
  gear: ResolvedGear,
  valves: number,
): number {
  return ledger.number('cam.camshafts', file.cam?.camshafts, () => camshafts(gear.type, valves, banks));
}

export function resolveWeather({ file, ledger }: ResolveContext): Weather {
  const standard = file.correction ?? running.correction().value;
  const section = file.weather ?? {};
  const pressure = ledger.quantity('weather.barometer', section.barometer, 'pressure', 'inHg', () =>
    running.barometer(standard),
  );
  const temperature = ledger.quantity('weather.temperature', section.temperature, 'temperature', 'degF', () =>
    running.airTemperature(standard),
  );
  return { pressure, temperature, vapourPressure: vapour({ file, ledger }, standard, pressure, temperature) };
}

function vapour(
  { file, ledger }: Pick<ResolveContext, 'file' | 'ledger'>,
  standard: CorrectionStandard,
  pressure: number,
  temperature: number,
): number {
  const { humidity, vapourPressure, dewPoint, temperature: stated } = file.weather ?? {};
  if (vapourPressure !== undefined) return vapourPressure;
  if (dewPoint !== undefined) return saturationPressure(dewPoint, pressure);
  if (humidity !== undefined) return vapourPressureOf(humidity, temperature, pressure);
  if (stated === undefined) {
    return ledger.quantity('weather.vapourPressure', undefined, 'pressure', 'inHg', () =>
      running.vapourPressure(standard),
    );
  }
  const share = ledger.quantity('weather.humidity', undefined, 'share', '%', running.humidity);
  return vapourPressureOf(share, temperature, pressure);
}

export function resolveCorrection({ file, ledger }: ResolveContext): CorrectionStandard {
  return ledger.word('correction', file.correction, running.correction);
}

export function resolveLimits({ file: { limits = {} } }: ResolveContext): Limits {
  const { octaneMargin = null, pistonSpeed = null, valveLift = null, redline = null } = limits;
  return { octaneMargin, pistonSpeed, valveLift, redline };
}
