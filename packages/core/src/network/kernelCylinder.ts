/** A cylinder as the kernel meets it: its numbers in one block, copied there and back where a step begins and ends. */
import type { Cylinder } from './cylinder.ts';
import type { NetworkMemory } from './networkMemory.ts';

/**
 * Places in a cylinder's block, in the order of `tools/kernel/cylinder.as`: what it is made of, from 0; what the march alters, from `gas`;
 * what is worked out, from `now`; and scratch.
 */
const CYLINDER_BLOCK = {
  gas: 23,
  speed: 24,
  burning: 25,
  firing: 26,
  endGas: 27,
  residual: 28,
  burnStart: 29,
  duration: 30,
  a: 31,
  m: 32,
  efficiency: 33,
  reference: 34,
  start: 37,
  now: 39,
  scratch: 51,
} as const;
const SCRATCH_SIZE = 13;

/** Working values in the order in which they stand in the block; those of heat, which follow, the kernel keeps to itself. */
const NOW = {
  angle: 39,
  V: 40,
  dV: 41,
  m: 42,
  U: 43,
  s: 44,
  x: 45,
  Tu: 46,
  Tb: 47,
  T: 48,
} as const;
const MODELS = { woschni: 0, hohenberg: 1, annand: 2 } as const;

export interface KernelCylinder {
  readonly cylinder: Cylinder;
  readonly block: Float64Array;
  /** Addresses of the gas that it burns, and of the network's [bytes]. */
  readonly charge: number;
  readonly mean: number;
}

/** @param gasAt - address of a gas that cylinders burn [bytes] */
export function kernelCylinder(
  cylinder: Cylinder,
  { take }: Pick<NetworkMemory, 'take'>,
  gasAt: (tables: Cylinder['tables']) => number,
): KernelCylinder {
  const block = take(CYLINDER_BLOCK.scratch + SCRATCH_SIZE);
  block.set(madeOf(cylinder));
  return { cylinder, block, charge: gasAt(cylinder.charge), mean: gasAt(cylinder.mean) };
}

/** Address of the angle of a cylinder [bytes]. */
export function angleAt({ block }: KernelCylinder): number {
  return block.subarray(NOW.angle).byteOffset;
}

function madeOf(cylinder: Cylinder): number[] {
  const { crank, walls, spray, side, opening } = cylinder;
  const fuel =
    spray === undefined ? [] : [spray.liquid.R, spray.liquid.latentHeat, spray.liquid.boilingPoint];
  return [
    ...[cylinder.offset, side.byteOffset, opening.byteOffset, cylinder.firingAngle],
    ...[crank.bore, crank.stroke, crank.rodLength, crank.clearanceVolume, cylinder.pistonArea],
    ...[MODELS[walls.model], walls.multiplier, walls.head, walls.piston, walls.liner],
    ...[walls.headRatio, walls.clearanceWall, Number(spray !== undefined)],
    ...(spray === undefined ? [0, 0, 0, 0, 0] : [...fuel, spray.diameter, spray.wallShare]),
    cylinder.heatOfReaction,
  ];
}

/** Writes what the kernel has to know of a cylinder as it is now. */
export function tellCylinder({ cylinder, block, charge, mean }: KernelCylinder): void {
  const { burn, reference, start, now } = cylinder;
  block[CYLINDER_BLOCK.gas] = cylinder.tables === cylinder.mean ? mean : charge;
  block[CYLINDER_BLOCK.speed] = cylinder.speed;
  block[CYLINDER_BLOCK.burning] = cylinder.burning ? 1 : 0;
  block[CYLINDER_BLOCK.firing] = cylinder.firing ? 1 : 0;
  block[CYLINDER_BLOCK.endGas] = cylinder.endGas ? 1 : 0;
  block[CYLINDER_BLOCK.residual] = cylinder.residual;
  block[CYLINDER_BLOCK.burnStart] = burn.start;
  block[CYLINDER_BLOCK.duration] = burn.duration;
  block[CYLINDER_BLOCK.a] = burn.a;
  block[CYLINDER_BLOCK.m] = burn.m;
  block[CYLINDER_BLOCK.efficiency] = burn.efficiency;
  block[CYLINDER_BLOCK.reference] = reference.p;
  block[CYLINDER_BLOCK.reference + 1] = reference.T;
  block[CYLINDER_BLOCK.reference + 2] = reference.V;
  block[CYLINDER_BLOCK.start] = start.p;
  block[CYLINDER_BLOCK.start + 1] = start.Tb;
  block[NOW.angle] = now.angle;
  block[NOW.V] = now.V;
  block[NOW.dV] = now.dV;
  block[NOW.m] = now.m;
  block[NOW.U] = now.U;
  block[NOW.s] = now.s;
  block[NOW.x] = now.x;
  block[NOW.Tu] = now.Tu;
  block[NOW.Tb] = now.Tb;
  block[NOW.T] = now.T;
}

/** Takes over where the kernel has the next search of zones start. */
export function hearStart({ cylinder: { start }, block }: KernelCylinder): void {
  start.p = block[CYLINDER_BLOCK.start];
  start.Tb = block[CYLINDER_BLOCK.start + 1];
}

/** Takes over what the kernel has decoded of a cylinder. */
export function hearCylinder({ cylinder: { now }, block }: KernelCylinder): void {
  now.angle = block[NOW.angle];
  now.V = block[NOW.V];
  now.dV = block[NOW.dV];
  now.m = block[NOW.m];
  now.U = block[NOW.U];
  now.s = block[NOW.s];
  now.x = block[NOW.x];
  now.Tu = block[NOW.Tu];
  now.Tb = block[NOW.Tb];
  now.T = block[NOW.T];
}
