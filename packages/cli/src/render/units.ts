/**
 * From SI to what stands on a builder's paper. Factors are written out, since help and the version are shown without the library;
 * a test holds them to the library's.
 */
import type { Combination } from '@valvetide/core';
import { fixed } from './fixed.ts';

/** `trade`: inches, pounds and horsepower; `si`: metric. */
export type UnitSystem = Combination['units'];

const INCH_MM = 25.4;
const POUND_KG = 0.45359237;
/** Mechanical horsepower [kW]: 550 ft lbf/s. */
const HORSEPOWER_KW = 0.7456998715822702;
/** Foot pound-force [N m]. */
const FOOT_POUND_NM = 1.3558179483314;
/** Inch of mercury at 0 C [kPa] (NIST SP 811, B.8), as the library has it. */
const INCH_HG_KPA = 3.386389;
const PSI_BAR = 0.0689475729316836;

/** How torque [N m] and power [kW] are shown. */
export interface Shown {
  readonly torque: (nm: number) => number;
  readonly torqueUnit: string;
  readonly power: (kw: number) => number;
  readonly powerUnit: string;
}

export const SHOWN: Readonly<Record<UnitSystem, Shown>> = {
  trade: {
    torque: (nm) => nm / FOOT_POUND_NM,
    torqueUnit: 'lb-ft',
    power: (kw) => kw / HORSEPOWER_KW,
    powerUnit: 'hp',
  },
  si: { torque: (nm) => nm, torqueUnit: 'Nm', power: (kw) => kw, powerUnit: 'kW' },
};

/** How one quantity is shown. */
export interface ShownQuantity {
  readonly of: (value: number) => number;
  readonly unit: string;
  /** As many as a builder reads. */
  readonly decimals: number;
}

/** The figure alone. */
export function figureIn({ of, decimals }: ShownQuantity, value: number): string {
  return fixed(of(value), decimals);
}

/** The figure with its unit. */
export function quantityIn(shown: ShownQuantity, value: number): string {
  return `${figureIn(shown, value)} ${shown.unit}`;
}

const asItIs = (value: number): number => value;

/** Bores, lifts and clearances [mm]. */
export const SHOWN_LENGTH: Readonly<Record<UnitSystem, ShownQuantity>> = {
  trade: { of: (mm) => toInch(mm), unit: 'in', decimals: 3 },
  si: { of: asItIs, unit: 'mm', decimals: 2 },
};

/** Pressure of a gas [Pa]. */
export const SHOWN_PRESSURE: Readonly<Record<UnitSystem, ShownQuantity>> = {
  trade: { of: (pa) => toPsi(pa / 1e5), unit: 'psi', decimals: 2 },
  si: { of: (pa) => pa / 1e5, unit: 'bar', decimals: 3 },
};

/** Depression of a manifold [inHg]. */
export const SHOWN_DEPRESSION: Readonly<Record<UnitSystem, ShownQuantity>> = {
  trade: { of: asItIs, unit: 'inHg', decimals: 2 },
  si: { of: (inHg) => toKpa(inHg), unit: 'kPa', decimals: 2 },
};

/** Mean speed of a piston [m/s]. */
export const SHOWN_PISTON_SPEED: Readonly<Record<UnitSystem, ShownQuantity>> = {
  trade: { of: (ms) => toFeetPerMinute(ms), unit: 'ft/min', decimals: 0 },
  si: { of: asItIs, unit: 'm/s', decimals: 1 },
};

/** How the flow of a bench [cfm] is shown, and the usual depression. */
export interface ShownFlow extends ShownQuantity {
  /** 28 inH2O. */
  readonly bench: string;
  /** 1.5 inHg, what carburetors are rated at. */
  readonly rating: string;
}

export const SHOWN_FLOW: Readonly<Record<UnitSystem, ShownFlow>> = {
  trade: { of: asItIs, unit: 'cfm', decimals: 0, bench: '28 inH2O', rating: '1.5 inHg' },
  si: {
    of: (cfm) => toLitrePerSecond(cfm),
    unit: 'l/s',
    decimals: 1,
    bench: '6.97 kPa',
    rating: '5.08 kPa',
  },
};

export const toLitrePerSecond = (cfm: number): number => (cfm * (12 * INCH_MM) ** 3) / 60e6;
export const toInch = (mm: number): number => mm / INCH_MM;
export const toSquareInch = (mm2: number): number => mm2 / INCH_MM ** 2;
export const toCubicInch = (cm3: number): number => (cm3 * 1000) / INCH_MM ** 3;
export const toPsi = (bar: number): number => bar / PSI_BAR;
export const toInHg = (kPa: number): number => kPa / INCH_HG_KPA;
export const toKpa = (inHg: number): number => inHg * INCH_HG_KPA;
export const toFeetPerMinute = (ms: number): number => (ms * 60_000) / (12 * INCH_MM);
export const toFeetPerSecond = (ms: number): number => (ms * 1000) / (12 * INCH_MM);
export const toPound = (kg: number): number => kg / POUND_KG;
export const toPoundPerHpHour = (gPerKwh: number): number => ((gPerKwh / 1000) * HORSEPOWER_KW) / POUND_KG;
export const toFahrenheit = (kelvin: number): number => (kelvin - 273.15) * 1.8 + 32;
export const toCelsius = (kelvin: number): number => kelvin - 273.15;
