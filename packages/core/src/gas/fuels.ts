/** The fuels shipped with the program, as data. */
import { DomainError } from '../base/errors.ts';
import { type Fuel, vapourHeatingValue } from './fuel.ts';
import { mixture } from './mixture.ts';
import { species } from './species.ts';

/** A liquid that fuels are blended from. */
interface Liquid {
  /** Enthalpy of vaporisation at 298.15 K [J/mol]. */
  readonly vaporisation: number;
  /** Density at 20 degC [kg/m3]. */
  readonly density: number;
  /** At 1 atm [K]. */
  readonly boiling: number;
}

/** CRC Handbook of Chemistry and Physics, values from memory, 1 % or better. */
const LIQUIDS: Readonly<Record<string, Liquid>> = {
  iC8H18: { vaporisation: 35_140, density: 692, boiling: 372.4 },
  C7H16: { vaporisation: 36_570, density: 684, boiling: 371.6 },
  C7H8: { vaporisation: 38_010, density: 867, boiling: 383.8 },
  C2H5OH: { vaporisation: 42_320, density: 789, boiling: 351.4 },
  CH3OH: { vaporisation: 37_430, density: 791, boiling: 337.8 },
};

/** Parts of a blend by name of the species: moles or volumes, as the caller says. */
type Parts = Readonly<Record<string, number>>;

/**
 * Surrogate of pump gasoline, moles: 62.6 % iso-octane, 37.4 % toluene, which is CH1.87 like the average
 * gasoline of Heywood (1988) table D.4. Its heating value (43.1 MJ/kg liquid) and latent heat (0.34 MJ/kg) follow.
 */
const GASOLINE = { iC8H18: 0.626, C7H8: 0.374 };

/** Moles of ten litres or so of a blend whose parts are given by volume. */
function byVolume(volumes: Parts): Parts {
  return Object.fromEntries(
    Object.entries(volumes).map(([name, volume]) => [
      name,
      (volume * LIQUIDS[name].density) / (1000 * species(name).molarMass),
    ]),
  );
}

/** The gasoline surrogate with a share of ethanol by volume. */
function withEthanol(share: number): Parts {
  const gasolineVolume = Object.entries(GASOLINE).reduce(
    (sum, [name, moles]) => sum + (moles * species(name).molarMass) / LIQUIDS[name].density,
    0,
  );
  const moles = (1 - share) / gasolineVolume / 1000;
  return {
    iC8H18: GASOLINE.iC8H18 * moles,
    C7H8: GASOLINE.C7H8 * moles,
    ...byVolume({ C2H5OH: share }),
  };
}

/** A fuel whose heating value and latent heat follow from its species. */
function blend(name: string, moles: Parts, researchOctane: number, motorOctane: number): Fuel {
  const total = Object.values(moles).reduce((sum, value) => sum + value, 0);
  const composition = Object.entries(moles).map(([part, amount]) => ({
    species: part,
    moles: amount / total,
  }));
  const vapour = mixture(composition.map((part) => ({ gas: species(part.species), moles: part.moles })));
  const latentHeat =
    composition.reduce((sum, part) => sum + part.moles * LIQUIDS[part.species].vaporisation, 0) /
    vapour.molarMass;
  return {
    name,
    composition,
    atoms: null,
    lowerHeatingValue: vapourHeatingValue(vapour) - latentHeat,
    latentHeat,
    boilingPoint: composition.reduce((sum, part) => sum + part.moles * LIQUIDS[part.species].boiling, 0),
    researchOctane,
    motorOctane,
  };
}

/** A fuel that is a gas, so that nothing of it evaporates. */
function gas(name: string, moles: Parts, researchOctane: number, motorOctane: number): Fuel {
  const composition = Object.entries(moles).map(([part, amount]) => ({ species: part, moles: amount }));
  const vapour = mixture(composition.map((part) => ({ gas: species(part.species), moles: part.moles })));
  return {
    name,
    composition,
    atoms: null,
    lowerHeatingValue: vapourHeatingValue(vapour),
    latentHeat: 0,
    boilingPoint: 0,
    researchOctane,
    motorOctane,
  };
}

/**
 * The fuels by name.
 *
 * Pump gasolines are named by antiknock index, (RON + MON) / 2; the split into RON and MON is typical and from
 * memory, the composition is the one surrogate (grades differ by less than 1 % in energy). `-e10`: with 10 % ethanol by
 * volume. Race gasolines are named by antiknock index too; composition and octane numbers are typical and from memory.
 * Propane and natural gas enter as gases; a liquid propane that evaporates in the engine is not meant. Octane numbers of
 * ethanol and methanol are those of the neat fuels: what they bring to a blend differs. These numbers are from memory too.
 */
export const FUELS: readonly Fuel[] = [
  blend('pump-87', GASOLINE, 91, 83),
  blend('pump-89', GASOLINE, 93.5, 84.5),
  blend('pump-91', GASOLINE, 96, 86),
  blend('pump-93', GASOLINE, 98, 88),
  blend('pump-87-e10', withEthanol(0.1), 91.5, 82.5),
  blend('pump-91-e10', withEthanol(0.1), 96.5, 85.5),
  blend('pump-93-e10', withEthanol(0.1), 98.5, 87.5),
  blend('race-100', byVolume({ iC8H18: 0.55, C7H8: 0.35, C2H5OH: 0.1 }), 105, 95),
  blend('race-110', byVolume({ iC8H18: 0.75, C7H8: 0.25 }), 113, 107),
  blend('race-116', byVolume({ iC8H18: 0.9, C7H8: 0.1 }), 117, 115),
  blend('e85', withEthanol(0.85), 107, 89),
  blend('ethanol', { C2H5OH: 1 }, 109, 90),
  blend('methanol', { CH3OH: 1 }, 109, 89),
  blend('iso-octane', { iC8H18: 1 }, 100, 100),
  gas('propane', { C3H8: 1 }, 112, 97),
  gas('natural-gas', { CH4: 0.95, C3H8: 0.05 }, 130, 120),
];

/** Names of the fuels shipped. */
export const FUEL_NAMES: readonly string[] = FUELS.map((fuel) => fuel.name);

/**
 * The fuel of that name.
 *
 * @throws {@link DomainError} listing the known names
 */
export function fuelNamed(name: string): Fuel {
  const found = FUELS.find((fuel) => fuel.name === name);
  if (found === undefined) throw new DomainError('fuel', name, `one of ${FUEL_NAMES.join(', ')}`);
  return found;
}
