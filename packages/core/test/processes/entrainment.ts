/**
 * A burn worked apart from the program's: the turbulent entrainment of Blizard and Keck, SAE 740191 (1974), with the eddies of Tabaczynski,
 * Ferguson and Radhakrishnan, SAE 770647 (1977), both from memory, in a flat disc with its plug in the middle of the head.
 *
 * The front takes in charge at turbulence plus flame speed over its own area; what is taken in burns in the time a flame needs across
 * Taylor's microscale. Turbulence goes with piston speed and is squeezed with the charge, the integral scale is the height of the chamber.
 */
import { laminarFlameSpeed } from '../../src/processes/laminarFlameSpeed.ts';
import { kinematicViscosity } from '../../src/processes/viscosity.ts';

export interface Disc {
  /** [m] */
  readonly bore: number;
  /** [m] */
  readonly stroke: number;
  readonly ratio: number;
  readonly rpm: number;
}

/** How much of the time the front takes, and how much the eddies behind it [-]. */
export interface Entrainment {
  /** Velocity at which the front takes charge in, over mean piston speed at top centre. */
  readonly front: number;
  /** Time of an eddy over microscale by flame speed. */
  readonly eddy: number;
}

const R = 287;
/** Charge at the bottom: 360 K, 1 bar; compressed by the polytrope of exponent 1.33. */
const [BOTTOM_T, BOTTOM_P, POLYTROPE] = [360, 1e5, 1.33];
const BURNING_GAMMA = 1.3;
/** Heat of a kilogram of charge at lambda 0.87 [J/kg]. */
const HEAT = 2.65e6;
const PHI = 1 / 0.87;
const RESIDUAL = 0.06;
const STEP = 0.25;
const RAD = Math.PI / 180;
/** Turbulence acts on a kernel as soon as it is a tenth of the integral scale. */
const KERNEL = 0.1;
const CENTRE = 8;

/** Part of a sphere about the middle of the head that lies in the disc: volume and area of its front. */
function flame(r: number, height: number, boreRadius: number): { volume: number; area: number } {
  const top = Math.min(r, height);
  const wall = Math.min(top, Math.sqrt(Math.max(0, r * r - boreRadius * boreRadius)));
  const cap = Math.PI * (r * r * (top - wall) - (top ** 3 - wall ** 3) / 3);
  return { volume: Math.PI * boreRadius ** 2 * wall + cap, area: 2 * Math.PI * r * (top - wall) };
}

function flameRadius(volume: number, height: number, boreRadius: number): number {
  let [low, high] = [0, Math.hypot(height, boreRadius)];
  for (let i = 0; i < 30; i++) {
    const r = (low + high) / 2;
    if (flame(r, height, boreRadius).volume < volume) low = r;
    else high = r;
  }
  return high;
}

/** Angles after top centre at which 10, 50 and 90 % are burned [deg] of a charge lit so many degrees before it. */
function burned(disc: Disc, model: Entrainment, spark: number): readonly number[] {
  const { bore, stroke, ratio, rpm } = disc;
  const area = (Math.PI / 4) * bore * bore;
  const clearance = stroke / (ratio - 1);
  const [crank, rod] = [stroke / 2, 1.64 * stroke];
  const height = (angle: number) =>
    clearance +
    crank * (1 - Math.cos(angle * RAD)) +
    rod -
    Math.sqrt(rod ** 2 - (crank * Math.sin(angle * RAD)) ** 2);
  const bottom = area * height(180);
  const mass = (BOTTOM_P * bottom) / (R * BOTTOM_T);
  const squeeze = bottom / (area * height(spark));
  const sparkT = BOTTOM_T * squeeze ** (POLYTROPE - 1);
  const sparkP = BOTTOM_P * squeeze ** POLYTROPE;
  const topDensity = (BOTTOM_P * ratio) / (R * BOTTOM_T);
  const seconds = STEP / (6 * rpm);
  const found: number[] = [];
  let [taken, burnt, p] = [0, 0, sparkP];
  for (let angle = -spark; angle < 130 && found.length < 3; angle += STEP) {
    const T = sparkT * (p / sparkP) ** (1 - 1 / POLYTROPE);
    const density = p / (R * T);
    const h = height(angle);
    // Burned gas fills so much more room than the charge it was: 2550 K and a little more where the charge is hotter.
    const room = (1.05 * (2550 + 0.7 * (T - 700))) / T;
    const share = (burnt * room + taken - burnt) / (burnt * room + mass - burnt);
    const r = flameRadius(Math.max(area * h * share, 2e-9), h, bore / 2);
    const squeezed = Math.cbrt(density / topDensity);
    const turbulence = ((model.front * (stroke * rpm)) / 30) * squeezed;
    const scale = clearance / squeezed;
    const nu = kinematicViscosity(T, p, R);
    const speed = laminarFlameSpeed('gasoline', PHI, T, p, RESIDUAL);
    const time = (model.eddy * Math.sqrt((15 * nu * scale) / turbulence)) / speed;
    const front = density * flame(r, h, bore / 2).area * seconds;
    const inflow = front * (turbulence * (1 - Math.exp(-r / (KERNEL * scale))) + speed);
    const release = Math.min(mass - burnt, front * speed + ((taken - burnt) / time) * seconds);
    taken = Math.min(mass, taken + inflow);
    burnt = Math.min(taken, burnt + release);
    while (found.length < 3 && burnt / mass >= [0.1, 0.5, 0.9][found.length]) found.push(angle);
    const [V, next] = [area * h, area * height(angle + STEP)];
    const half = ((BURNING_GAMMA - 1) / 2) * (next - V);
    p = (p * (V - half) + (BURNING_GAMMA - 1) * release * HEAT) / (next + half);
  }
  return found;
}

/** 10 to 90 % burned [deg] where half is burned 8 deg after top centre. */
export function entrainedMain(disc: Disc, model: Entrainment): number {
  let [low, high] = [0, 100];
  for (let i = 0; i < 9; i++) {
    const spark = (low + high) / 2;
    const [, half = Number.POSITIVE_INFINITY] = burned(disc, model, spark);
    if (half > CENTRE) low = spark;
    else high = spark;
  }
  const [tenth, , most] = burned(disc, model, high);
  return most - tenth;
}
