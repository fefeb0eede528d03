/** Fuel that runs along the back of the hot intake valve and boils there. */
import type { Combination } from '../combination/combination.ts';
import { J607_REFERENCE } from '../combination/referenceAir.ts';
import { latentBesideGasoline } from '../gas/besideGasoline.ts';
import type { GasTables } from '../gas/gasTables.ts';
import type { LiquidFuel } from '../gas/liquidFuel.ts';
import type { Boiling } from '../network/openEnd.ts';
import { mostBoilingFlux } from '../processes/boilingFilm.ts';

/** Gas constant of air [J/(kg K)]. */
export const AIR_R = 287;

/**
 * What the intake valves boil off their backs, dry 450 to 550 K hot at full load (from memory) and far above the boiling point of any fuel.
 *
 * As much of a fuel comes to lie on walls as of gasoline, since drops are thrown on them by their size and speed. Gasoline's film is what its walls
 * evaporate before the valve; of an alcohol they evaporate less, and the rest of so large a film runs on to the valve. Through its back the
 * valve gives no more than the limit of boiling over the area of its head, the whole cycle long. A cylinder full of cold air sets how much fuel comes.
 *
 * @param tables - of the whole mixture, all of it gas
 * @param vapour - share of the fuel that is vapour before the valve [-]
 */
export function valveFilm(
  { fuel, induction, intake, block, weather }: Combination,
  tables: GasTables,
  liquid: LiquidFuel,
  vapour: number,
): Boiling | undefined {
  if (induction.injection === 'direct') return undefined;
  const byWalls = induction.vapour - induction.evaporation;
  const film = byWalls / latentBesideGasoline(fuel).byAir;
  const wetting = Math.min(1, (film - byWalls) / (1 - vapour));
  if (!(wetting > 0)) return undefined;
  const heads = (Math.PI / 4) * intake.valveDiameter ** 2 * intake.valves;
  const swept = (Math.PI / 4) * block.bore ** 2 * block.stroke;
  const air = (swept * weather.pressure) / (AIR_R * J607_REFERENCE.temperature);
  const arriving = ((1 - vapour) * air * tables.fuelFraction) / (1 - tables.fuelFraction);
  const { latentHeat } = liquid;
  return {
    wetting,
    speed: (4 * Math.PI * heads * mostBoilingFlux(liquid)) / (arriving * latentHeat),
    latentHeat,
  };
}
