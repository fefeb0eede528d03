/** Matters that a builder looks for and that no field can say, since the program does not forecast them. */

/** A matter, the names that speak of it, and what can be done. */
interface Matter {
  readonly names: RegExp;
  readonly matter: string;
  readonly hint: string;
}

const BREATHES =
  'engines here breathe the air around them; forecast this one without it, and leave the field out';
const FOUR_STROKES = 'engines here are four-strokes with pistons, poppet valves above them and a spark';

const PARTS: readonly Matter[] = [
  { names: /nitrous|\bn2o\b|\bnos\b/iu, matter: 'nitrous oxide', hint: BREATHES },
  {
    names: /turbo|superch|forced.?induction|blower|boost|intercool|wastegate|compressor/iu,
    matter: 'forced induction',
    hint: BREATHES,
  },
];

/** Told by the value of a field too: `cycle: two-stroke`. */
const ENGINES: readonly Matter[] = [
  { names: /(?:\btwo|\b2).?(?:stroke|cycle)|transfer.?port/iu, matter: 'a two-stroke', hint: FOUR_STROKES },
  { names: /diesel|compression.?ignition/iu, matter: 'a diesel', hint: FOUR_STROKES },
  { names: /wankel|rotary|rotor/iu, matter: 'a rotary engine or rotary valves', hint: FOUR_STROKES },
  { names: /sleeve.?valve/iu, matter: 'sleeve valves', hint: FOUR_STROKES },
  {
    names: /side.?valve|flat.?head|\b[lft].?head/iu,
    matter: 'valves beside the cylinder',
    hint: FOUR_STROKES,
  },
];

/** What a name that is no field, or its value, speaks of, where that is known and not forecast; else null. */
export function notForecast(name: string, value?: unknown): Matter | null {
  return (
    [...PARTS, ...ENGINES].find(({ names }) => names.test(name)) ??
    (typeof value === 'string' ? engineNotForecast(value) : null)
  );
}

/** What kind of engine a word speaks of that is not forecast. */
export function engineNotForecast(word: string): Matter | null {
  return ENGINES.find(({ names }) => names.test(word)) ?? null;
}

/** The line that answers for it, and what can be done. */
export function notForecastMessage({ matter, hint }: Matter): {
  readonly message: string;
  readonly hint: string;
} {
  return { message: `speaks of ${matter}, which is not forecast`, hint };
}
