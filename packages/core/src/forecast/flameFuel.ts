/** Which measured flame speed stands for a fuel. */
import type { Fuel } from '../gas/fuel.ts';
import type { FlameFuel } from '../processes/laminarFlameSpeed.ts';

/** The dominant alcohol where alcohols are more than half of the moles, else gasoline. */
export function flameFuelOf(fuel: Fuel): FlameFuel {
  if (fuel.composition === null) {
    const { C, H, O } = fuel.atoms ?? { C: 8, H: 15, O: 0 };
    if (!(O / C > 0.25)) return 'gasoline';
    return C <= 1.5 && H <= 4.5 ? 'methanol' : 'ethanol';
  }
  const total = fuel.composition.reduce((sum, c) => sum + c.moles, 0);
  const share = (name: string) =>
    fuel.composition?.filter((c) => c.species === name).reduce((s, c) => s + c.moles / total, 0) ?? 0;
  if (share('CH3OH') > 0.5) return 'methanol';
  if (share('C2H5OH') > 0.5) return 'ethanol';
  if (share('C3H8') > 0.5) return 'propane';
  return share('iC8H18') > 0.95 ? 'iso-octane' : 'gasoline';
}
