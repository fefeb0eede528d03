/** How fast a pull went, in a line as people write it: `Sweep rate: 300 rpm/s`; `step test`; `inertia corrected`. */

/** What a line says of it. */
export interface RateSaid {
  /** [1/min/s], as written; 0: its speeds were held. */
  readonly rate: number | null;
  /** Whether the speed rose or fell; null where the line doesn't say. */
  readonly way: 'rising' | 'falling' | null;
  /** The dyno has added to its figures what the pull held back. */
  readonly corrected: boolean | null;
  /** The line speaks of nothing else, so that it is no title. */
  readonly alone: boolean;
}

/** Why such a line can't be taken as it stands. */
export type RateFault = 'unit' | 'two' | 'impossible';

/** Faster than any dyno lets an engine go [1/min/s]. */
export const MOST_RATE = 3000;

/** A number of a rate; a sign counts where nothing but a blank stands before it. */
const FIGURE =
  /(?:^|[\s:=(,;])([+-]?)(\d+(?:[.,]\d+)?)\s*(?:rpm|r\/min|1\/min)\s*(?:\/|\bper\s|\ba\s)\s*s(?:ec(?:ond)?s?)?\b/giu;
/** A figure beside such words is another pull's. */
const NOT_OF_IT = /\b(?:not|no|than|other|instead|was|were|versus|vs|if)\b|\?/iu;
const STEPS =
  /\bstep(?:ped)?[ -]?test\b|\bsteady[ -]?state\b|^(?:test|mode|procedure)(?: type)?\s*[:=;,]\s*(?:stepped|steps?|steady)\b/iu;
const FALLING = /\b(?:falling|falls|decel\w*|downward)\b/iu;
const RISING = /\b(?:rising|rises|accel\w*|upward)\b/iu;
const INERTIA = /\binertia\b/iu;
const CORRECTED = /\b(?:corrected|compensated|compensation|added|allowed|on|yes)\b/iu;
const UNCORRECTED = /\b(?:not|no|off|none|without|un(?:corrected|compensated))\b/iu;
/** Names of a rate: a bare number behind them lacks its unit. */
const NAMED = /^(?:(?:sweep|ramp|pull|acceleration|accel|test|rpm)\s+)?rate\s*[:=;,]\s*(.*)$/iu;
const ALONE =
  /^(?:(?:sweep|ramp|pull|acceleration|accel|test|rpm)\s+)?(?:rate|type|mode|procedure|test|sweep|acceleration)\b|^inertia\b|^(?:step|sweep|steady)\b/iu;

/** What a line says of the rate of its pull; null where it says nothing of it; or why it can't be taken. */
export function rateSaid(text: string): RateSaid | RateFault | null {
  const figures = [
    ...new Set(
      [...text.matchAll(FIGURE)].map(([, sign, digits]) => numberOf(digits) * (sign === '-' ? -1 : 1)),
    ),
  ];
  const alone = ALONE.test(text);
  if (INERTIA.test(text) && figures.length === 0) {
    const corrected = UNCORRECTED.test(text) ? false : CORRECTED.test(text) ? true : null;
    return { rate: null, way: null, corrected, alone };
  }
  const way = FALLING.test(text) ? 'falling' : RISING.test(text) ? 'rising' : null;
  const corrected = INERTIA.test(text) ? !UNCORRECTED.test(text) && CORRECTED.test(text) : null;
  if (STEPS.test(text) && !NOT_OF_IT.test(text)) return { rate: 0, way: null, corrected, alone };
  const named = NAMED.exec(text);
  if (figures.length === 0)
    return named !== null && /^[+-]?\d+(?:[.,]\d+)?$/u.test(named[1].trim()) ? 'unit' : null;
  if (NOT_OF_IT.test(text.replace(INERTIA, '')) && named === null && corrected === null) return null;
  if (figures.length > 1) return 'two';
  const [rate] = figures;
  if (!(Math.abs(rate) <= MOST_RATE)) return 'impossible';
  return { rate, way: rate < 0 ? 'falling' : way, corrected, alone };
}

/** `300`, `1,000`; a comma before other than three digits is a decimal one. */
function numberOf(digits: string): number {
  return Number(/,\d{3}$/u.test(digits) ? digits.replace(',', '') : digits.replace(',', '.'));
}
