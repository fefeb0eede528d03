/**
 * From SI to what stands on a builder's paper. Factors are written out, since help and the version are shown without the library;
 * a test holds them to the library's.
 */
import type { Combination } from '@valvetide/core';

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

/** How the flow of a bench [cfm] is shown, and the usual depression. */
export interface ShownFlow {
  readonly flow: (cfm: number) => number;
  readonly unit: string;
  readonly decimals: number;
  /** 28 inH2O. */
  readonly bench: string;
  /** 1.5 inHg, what carburetors are rated at. */
  readonly rating: string;
}

export const SHOWN_FLOW: Readonly<Record<UnitSystem, ShownFlow>> = {
  trade: { flow: (cfm) => cfm, unit: 'cfm', decimals: 0, bench: '28 inH2O', rating: '1.5 inHg' },
  si: {
    flow: (cfm) => toLitrePerSecond(cfm),
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
