/** The lines of a dyno sheet that are no rows: standard, air of the day, title, number of the pull. */

import { dynoUnit, isDynoUnit } from '../base/dynoUnits.ts';
import type { PlainCode } from '../combination/problem.ts';
import type { CorrectionStandard } from '../combination/running.ts';
import { wordForStandard } from '../combination/wordForStandard.ts';
import { airSaid, leavesAir, speaksOfAir } from './airSaid.ts';
import { MOST_RATE, type RateFault, type RateSaid, rateSaid } from './rateSaid.ts';

/** What such lines have said so far. */
export interface DynoMeta {
  readonly standard: { readonly value: CorrectionStandard; readonly line: number } | null;
  /** One that a title or a remark speaks of without saying that it is the standard; `unclear` where two do, of two. */
  readonly spoken: 'J607' | 'J1349' | 'unclear' | null;
  /** [kPa] */
  readonly barometer: number | null;
  /** [K] */
  readonly temperature: number | null;
  /** [kPa] */
  readonly vapourPressure: number | null;
  /** [-] */
  readonly humidity: number | null;
  /** [K] */
  readonly dewPoint: number | null;
  /** Factor from observed to printed, as printed [-]. */
  readonly factor: number | null;
  /** Rate of the pull [1/min/s], as written; 0: its speeds were held. */
  readonly rate: number | null;
  /** Whether its speed rose or fell; null where no line says. */
  readonly way: RateSaid['way'];
  /** The dyno has added what the pull held back. */
  readonly inertiaCorrected: boolean;
  readonly pull: string | null;
  readonly title: string | null;
  /** A line says that the figures are those at the driven wheels. */
  readonly atWheels: boolean;
  /** Lines that speak of the air and were not understood. */
  readonly unread: readonly number[];
}

export const NO_META: DynoMeta = {
  standard: null,
  spoken: null,
  barometer: null,
  temperature: null,
  vapourPressure: null,
  humidity: null,
  dewPoint: null,
  factor: null,
  rate: null,
  way: null,
  inertiaCorrected: false,
  pull: null,
  title: null,
  atWheels: false,
  unread: [],
};

/** What went wrong with a line of this kind. */
export interface MetaSlip {
  readonly code: PlainCode;
  readonly message: string;
  readonly hint: string | null;
}

export type MetaResult = { readonly meta: DynoMeta } | { readonly slip: MetaSlip };

/** Longest line looked at for a standard, air or a title [characters]. */
const LONGEST_LINE = 400;

/** `chassis dyno`, `rear wheel`, `at the wheels`; no flywheel, and nothing that was taken back to the crank. */
const WHEELS =
  /\b(?:chassis dyno|roll(?:ing|er) (?:road|dyno)|(?:rear|back|driv(?:en|e)|the) wheels?|[rw]whp|whp)\b/iu;
const CRANK = /\b(?:fly-?wheel|crank|at the engine)\b/iu;

/** Reads one line that is no row: `# standard: J607`, `Barometer (inHg), 29.35`, a remark. */
export function readMeta(text: string, line: number, meta: DynoMeta): MetaResult {
  const short = text.slice(0, LONGEST_LINE);
  const atWheels = meta.atWheels || (WHEELS.test(short) && !CRANK.test(short));
  return readLine(short, line, { ...meta, atWheels });
}

function readLine(text: string, line: number, meta: DynoMeta): MetaResult {
  const plain = text
    .replace(/^[\s#"';,/]+/u, '')
    .replace(/[\s";,]+$/u, '')
    .trim();
  if (plain === '') return { meta };
  const said = rateSaid(plain);
  if (typeof said === 'string') return { slip: rateSlip(said, plain) };
  if (said === null) return readOther(plain, line, meta);
  const { rate } = said;
  if (rate !== null && meta.rate !== null && rate !== meta.rate) return { slip: rateSlip('two', plain) };
  const paced: DynoMeta = {
    ...meta,
    rate: rate ?? meta.rate,
    way: said.way ?? meta.way,
    inertiaCorrected: said.corrected ?? meta.inertiaCorrected,
  };
  return said.alone ? { meta: paced } : readOther(plain, line, paced);
}

const RATE_FAULTS: Readonly<Record<RateFault, Pick<MetaSlip, 'code' | 'message' | 'hint'>>> = {
  unit: {
    code: 'unit-missing',
    message: 'gives the rate of its pull without a unit',
    hint: 'write it like 300 rpm/s',
  },
  two: {
    code: 'rate-unclear',
    message: 'gives two rates for one pull',
    hint: 'keep one; a pull with a rate of its own has its line above its rows',
  },
  impossible: {
    code: 'out-of-range',
    message: `gives a rate of its pull that no dyno has, beyond ${MOST_RATE} rpm/s`,
    hint: 'most pulls rise by 100 to 1000 rpm in a second: write it like 300 rpm/s',
  },
};

function rateSlip(fault: RateFault, plain: string): MetaSlip {
  const { code, message, hint } = RATE_FAULTS[fault];
  return { code, message: `${message}: '${plain.slice(0, 40)}'`, hint };
}

/** A line that says nothing of the pull's rate, or other things beside it. */
function readOther(plain: string, line: number, meta: DynoMeta): MetaResult {
  const parts = /^([^:=;,\t]{2,40}?)\s*[:=;,\t]+\s*"?(.+?)"?$/su.exec(plain);
  const pull = /^(?:pull|run)\s*(?:no\.?|number|#)?\s*[:=,]?\s*([\w-]{1,20})$/iu.exec(plain);
  if (pull !== null) return { meta: { ...meta, pull: pull[1] } };
  // One figure behind its name and a colon is read below, with a word where its unit lacks.
  const air = airSaid(plain);
  if (air !== null && (parts === null || Object.keys(air).length > 1)) {
    const unread = leavesAir(plain) ? [...meta.unread, line] : meta.unread;
    return { meta: { ...meta, ...air, unread } };
  }
  if (parts === null) return { meta: remark(plain, line, meta) };
  const key = parts[1].toLowerCase();
  const value = parts[2]
    .replace(/[;\t]+/gu, ' ')
    .replace(/,\s*(?=[a-z%"°])/giu, ' ')
    .trim();
  if (/standard|correct(ed|ion)( to)?$|^corr/u.test(key) && !/factor/u.test(key))
    return standard(value, line, meta);
  if (/factor|^cf$/u.test(key)) return number(value, (factor) => ({ ...meta, factor }), meta);
  if (/vapou?r/u.test(key))
    return quantity(parts[1], value, 'pressure', (v) => ({ ...meta, vapourPressure: v }));
  if (/baro/u.test(key)) return quantity(parts[1], value, 'pressure', (v) => ({ ...meta, barometer: v }));
  if (/humidity|^rh$/u.test(key)) {
    const share = /^([\d.]+)\s*%?$/u.exec(value);
    if (share === null) return { meta: remark(plain, line, meta) };
    const percent = Number(share[1]);
    if (percent <= 1 && !value.includes('%')) {
      const message = `gives a humidity of ${share[1]} without its unit`;
      return {
        slip: { code: 'humidity-unclear', message, hint: `write ${percent * 100} %, or ${percent} %` },
      };
    }
    return { meta: { ...meta, humidity: percent / 100 } };
  }
  if (/dew/u.test(key)) return quantity(parts[1], value, 'temperature', (v) => ({ ...meta, dewPoint: v }));
  if (
    /(air|inlet|intake|carb|cell|room|ambient)?\s*temp/u.test(key) &&
    !/oil|water|coolant|fuel|exhaust/u.test(key)
  ) {
    return quantity(parts[1], value, 'temperature', (v) => ({ ...meta, temperature: v }));
  }
  return { meta: remark(plain, line, meta) };
}

/** A title where there is none yet; a line that speaks of the air and wasn't understood is noted. */
function remark(plain: string, line: number, meta: DynoMeta): DynoMeta {
  if (speaksOfAir(plain)) return { ...meta, unread: [...meta.unread, line] };
  const spoken = spokenOf(plain, meta.spoken);
  return { ...meta, spoken, title: meta.title ?? plain.slice(0, 120) };
}

/** Words in whose company a standard is another sheet's, or the one that the figures were taken from. */
const NOT_OF_IT = /\b(?:not|no|from|than|other|instead|was|were|versus|vs|if)\b|->|\?/iu;

function spokenOf(plain: string, before: DynoMeta['spoken']): DynoMeta['spoken'] {
  const named = standardNamed(plain);
  if (named !== 'J607' && named !== 'J1349') return before;
  if (NOT_OF_IT.test(plain) || (before !== null && before !== named)) return 'unclear';
  return named;
}

/** The standard a text names, as people write it; `unclear` for `SAE` alone, `other` for those not known here. */
export function standardNamed(text: string): CorrectionStandard | 'unclear' | 'other' {
  const words = text.toLowerCase();
  // `J607 (converted from J1349)`: which of them the figures refer to is the writer's to say.
  if (/j\s?-?1349/u.test(words) && /j\s?-?607/u.test(words)) return 'unclear';
  if (/j\s?-?1349/u.test(words)) return 'J1349';
  if (/j\s?-?607/u.test(words)) return 'J607';
  if (/\bnone\b|observed|uncorrected|\braw\b/u.test(words)) return 'none';
  return /\bsae\b/u.test(words) && !/j\s?-?1995/u.test(words) ? 'unclear' : 'other';
}

function standard(value: string, line: number, meta: DynoMeta): MetaResult {
  const named = standardNamed(value);
  const hint = 'write J607 (60 F, 29.92 inHg dry), J1349 (77 F, 29.23 inHg dry) or none (as observed)';
  if (named === 'unclear') {
    const message = `names the standard '${value.slice(0, 30)}', which may be J607 or J1349: 4 to 5 % apart`;
    return { slip: { code: 'standard-unclear', message, hint } };
  }
  if (named === 'other') {
    const message = `names the standard '${value.slice(0, 30)}', which is not known here`;
    return { slip: { code: 'standard-unknown', message, hint: wordForStandard(value) ?? hint } };
  }
  if (meta.standard !== null && meta.standard.value !== named) {
    const message = `names a second standard, ${named}, after ${meta.standard.value}`;
    return { slip: { code: 'standard-twice', message, hint: 'keep one standard a file' } };
  }
  return { meta: { ...meta, standard: { value: named, line } } };
}

function number(value: string, put: (value: number) => DynoMeta, meta: DynoMeta): MetaResult {
  const found = /^([\d.]+)$/u.exec(value);
  return { meta: found === null ? meta : put(Number(found[1])) };
}

/** `29.35 inHg`, or the unit in the key: `Barometer (inHg): 29.35`. */
function quantity(
  key: string,
  value: string,
  dimension: 'pressure' | 'temperature',
  put: (value: number) => DynoMeta,
): MetaResult {
  const found = /^([+-]?\d+(?:[.,]\d+)?)\s*(.*)$/su.exec(value);
  const inKey =
    key
      .replace(/\bin\.?\s+hg\b/giu, 'inHg')
      .split(/[\s([\])]+/u)
      .find((word) => isDynoUnit(word)) ?? '';
  const written =
    found === null ? '' : found[2].replace(/[()[\]]|\b(dry|wet|absolute|abs)\b/giu, '').trim() || inKey;
  const unit = dynoUnit(dimension, written);
  if (found === null || unit === null) {
    const message = `gives '${key.trim()}' as '${value.slice(0, 30)}', which needs a number and its unit`;
    const hint = dimension === 'pressure' ? 'write it like 29.35 inHg' : 'write it like 78 degF';
    return { slip: { code: 'unit-missing', message, hint } };
  }
  return { meta: put(Number(found[1].replace(',', '.')) * unit.factor + unit.offset) };
}
