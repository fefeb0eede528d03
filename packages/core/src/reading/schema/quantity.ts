/** Building blocks of the file's schema: a quantity with its unit, a pure number, a ratio, words, free text. */
import * as z from 'zod/mini';
import {
  commonUnits,
  type Dimension,
  describeDimension,
  exampleOf,
  parseQuantity,
  toUnit,
} from '../../base/units.ts';
import type { BySpeed } from '../../combination/combination.ts';

/** Rounding between units, so that a limit itself passes in any of them [-]. */
const SLACK = 1e-9;

/**
 * A quantity in the file, such as `4.155 in`; the schema's output is the kept unit's number. `range` holds the smallest and the largest
 * value worth believing, `10 mm to 250 mm`: beyond lies a slip, not an engine.
 *
 * @param counted - of an angle that people write a direction behind, such as BTDC, the direction that is positive, to say so
 */
export function quantity(
  dimension: Dimension,
  range: string,
  counted?: string,
): z.ZodMiniType<number, string> {
  const limits = limitsOf(range, dimension);
  const wanted = `needs ${describeDimension(dimension)}`;
  return z
    .pipe(
      z
        .string({
          error: ({ input }) => {
            if (typeof input !== 'number') return `${wanted}, such as ${exampleOf(dimension)}`;
            const example = withUnit(String(input), dimension, ...limits()) ?? exampleOf(dimension);
            return `${wanted}, such as ${example}: ${input} alone could be anything`;
          },
        })
        .check(z.meta({ pattern: '[0-9.]\\s*[A-Za-z%"°]' })),
      z.transform((text, context) => {
        const [min, max] = limits();
        const result = parseQuantity(text, dimension);
        if (!result.ok) {
          const [{ code, message, hint }] = result.problems;
          const whole = code === 'unit-missing' ? withUnit(text.trim(), dimension, min, max) : null;
          const unit =
            code === 'unit-unknown' && counted !== undefined ? `use deg, positive ${counted}` : hint;
          const own = whole === null ? unit : `write it like ${whole}`;
          context.issues.push({ code: 'custom', input: text, message, params: { code, hint: own } });
          return z.NEVER;
        }
        const { kept, unit } = result.value;
        if (!(kept >= min - SLACK * Math.abs(min) && kept <= max + SLACK * Math.abs(max))) {
          const message = `is impossible: '${text}' is outside ${range}`;
          const number = toUnit(kept, unit, dimension);
          context.issues.push({
            code: 'custom',
            input: text,
            message,
            params: { code: 'out-of-range', hint: unitSlip(number, dimension, min, max) },
          });
        }
        return kept;
      }),
    )
    .check(z.meta({ range }));
}

/** A number without unit. */
export function pure(min: number, max: number): z.ZodMiniType<number, number> {
  return z.number().check(z.gte(min), z.lte(max));
}

/** Speeds that a value may be given at. */
const SPEEDS = '0 rpm to 25000 rpm';
/** Most speeds of one table. */
const MOST_SPEEDS = 60;

/** A value at each of some speeds, such as `{ 3000 rpm: 0.90, 6000 rpm: 0.86 }`, rising in the result. */
export function bySpeed<In extends string | number>(
  value: z.ZodMiniType<number, In>,
): z.ZodMiniType<BySpeed, Record<string, In>> {
  const speed = quantity('speed', SPEEDS);
  return z.pipe(
    z.catchall(z.object({}), value).check(z.meta({ propertyNames: { pattern: '[0-9.]\\s*[A-Za-z]' } })),
    z.transform((written, context): BySpeed => {
      const fail = (key: string[], code: string, message: string): void => {
        context.issues.push({
          code: 'custom',
          input: written,
          path: key,
          message,
          params: { code, hint: null },
        });
      };
      const points = Object.entries(written).flatMap(([key, at]) => {
        const rpm = speed.safeParse(key);
        if (rpm.success) return [{ key, rpm: rpm.data, at }];
        const bare = /^\s*[\d.]+\s*$/u.test(key);
        if (bare) fail([key], 'unit-missing', `needs the unit of its speed: ${key.trim()} rpm`);
        else fail([key], 'wrong-kind', `is no speed such as 3000 rpm: '${key.slice(0, 30)}'`);
        return [];
      });
      points.sort((a, b) => a.rpm - b.rpm);
      points.forEach(({ key, rpm }, i) => {
        if (i > 0 && points[i - 1].rpm === rpm) fail([key], 'invalid', 'is a speed given twice');
      });
      const count = Object.keys(written).length;
      if (count === 0) fail([], 'out-of-range', 'needs a speed with its value');
      if (count > MOST_SPEEDS) fail([], 'out-of-range', `must have at most ${MOST_SPEEDS} speeds`);
      return { rpm: points.map(({ rpm }) => rpm), value: points.map(({ at }) => at) };
    }),
  );
}

/** A value, or one by speed. */
export function valueOrBySpeed<In extends string | number>(
  value: z.ZodMiniType<number, In>,
  example: In,
  table: Readonly<Record<string, In>>,
): z.ZodMiniType<number | BySpeed, In | Record<string, In>> {
  const wanted = `needs a value such as ${example}, or one by speed such as ${written(table)}`;
  return z.union([value, bySpeed(value)], {
    error: ({ input }) =>
      typeof input === 'number' ? `${wanted}: ${input} alone could be anything` : wanted,
  });
}

function written(table: Readonly<Record<string, string | number>>): string {
  return `{ ${Object.entries(table)
    .map(([speed, value]) => `${speed}: ${value}`)
    .join(', ')} }`;
}

/** A count. */
export function count(min: number, max: number): z.ZodMiniType<number> {
  return z.int().check(z.gte(min), z.lte(max));
}

const RATIO_WANTED = 'needs a plain number or a ratio such as 10.5:1';

/** A ratio to one, as `10.5` or `10.5:1`. */
export function ratio(min: number, max: number): z.ZodMiniType<number, number | string> {
  return z
    .pipe(
      z.union([z.number(), z.string().check(z.regex(/^\s*\d+(\.\d+)?(\s*:\s*1)?\s*$/u, RATIO_WANTED))], {
        error: () => RATIO_WANTED,
      }),
      z.transform((value, context) => {
        const number = typeof value === 'number' ? value : Number.parseFloat(value);
        if (!(number >= min && number <= max)) {
          const message = `is impossible: ${number} is outside ${min} to ${max}`;
          context.issues.push({
            code: 'custom',
            input: value,
            message,
            params: { code: 'out-of-range', hint: null },
          });
        }
        return number;
      }),
    )
    .check(z.meta({ range: `${min} to ${max}` }));
}

/** One of some words. */
export function word<const Words extends readonly string[]>(words: Words): z.ZodMiniType<Words[number]> {
  return z.enum(words);
}

/** Text up to a length. */
export function text(max: number): z.ZodMiniType<string> {
  return z.string().check(z.minLength(1), z.maxLength(max));
}

/** Yes or no. */
export function flag(): z.ZodMiniType<boolean> {
  return z.boolean();
}

/** Name of a CSV or TSV sheet beside the combination file. */
export function sheetName(): z.ZodMiniType<string> {
  return text(200);
}

/** A value for each cylinder, in the order of their numbers. */
export function byCylinder<In>(value: z.ZodMiniType<number, In>): z.ZodMiniType<number[], In[]> {
  return z.array(value).check(z.minLength(1), z.maxLength(16));
}

/** A cylinder list such as `[1, 3, 5, 7]`. */
export function cylinderList(): z.ZodMiniType<number[]> {
  return z.array(z.int().check(z.gte(1), z.lte(16))).check(z.minLength(1), z.maxLength(16));
}

/** Both ends of a range, read when first asked for: a file asks for some twenty of the hundred quantities that it might have. */
function limitsOf(range: string, dimension: Dimension): () => readonly [number, number] {
  let read: readonly [number, number] | null = null;
  return () => {
    if (read === null) {
      const [min, max] = range.split(' to ');
      read = [known(min, dimension), known(max, dimension)];
    }
    return read;
  };
}

function known(limit: string, dimension: Dimension): number {
  const result = parseQuantity(limit, dimension);
  if (!result.ok) throw new Error(`limit '${limit}' ${result.problems[0].message}`);
  return result.value.kept;
}

/** The same number in the unit that was probably meant: `28 inHg` for a test depression of 28 inH2O. */
function unitSlip(number: number, dimension: Dimension, min: number, max: number): string | null {
  const meant = withUnit(String(Number(number.toPrecision(8))), dimension, min, max);
  return meant === null ? null : `did you mean ${meant}?`;
}

/** What was written, with the first usual unit that it may be believed in; null where there is none. */
function withUnit(written: string, dimension: Dimension, min: number, max: number): string | null {
  for (const unit of commonUnits(dimension)) {
    const read = parseQuantity(`${written} ${unit}`, dimension);
    if (read.ok && read.value.kept >= min && read.value.kept <= max) return `${written} ${unit}`;
  }
  return null;
}
