/**
 * The units of mathjs for the bundled command: its class of units alone, given the arithmetic of plain numbers. What it can do with
 * matrices, complex, big and exact numbers is left out, which is nine tenths of it.
 */
import { createUnitClass } from 'mathjs';
import type { UnitClass } from './unitClass.ts';
import type { UnitSizes } from './unitSize.ts';
import { unitsOfMathjs } from './unitsOfMathjs.ts';

/** mathjs writes the degrees of Fahrenheit as an exact fraction; as an operand it is the number it stands for. */
class Quotient {
  readonly numerator: number;
  readonly denominator: number;

  constructor(numerator: number, denominator: number) {
    this.numerator = numerator;
    this.denominator = denominator;
  }

  valueOf(): number {
    return this.numerator / this.denominator;
  }
}

/** Kinds of numbers that this program has none of. */
class None {}

/** The factory as it is; mathjs describes the types of what is made with it, not of itself. */
const makeUnitClass: (arithmetic: Readonly<Record<string, unknown>>) => UnitClass = createUnitClass;

function plainUnits(): UnitClass {
  return makeUnitClass({
    config: { number: 'number', predictable: false },
    addScalar: (a: number, b: number) => +a + +b,
    subtractScalar: (a: number, b: number) => a - b,
    multiplyScalar: (a: number, b: number) => a * b,
    divideScalar: (a: number, b: number) => a / b,
    pow: (a: number, b: number) => (+a) ** +b,
    abs: Math.abs,
    fix: Math.trunc,
    round: Math.round,
    equal: (a: number, b: number) => +a === +b,
    isNumeric: (a: unknown) => typeof a === 'number',
    format: String,
    number: Number,
    Complex: None,
    BigNumber: None,
    Fraction: Quotient,
  });
}

/** See {@link UnitSizes}. */
export const unitSize: UnitSizes = /* @__PURE__ */ unitsOfMathjs(plainUnits());
