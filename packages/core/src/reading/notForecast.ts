/** Matters that a builder looks for and that no field can say, since the program does not forecast them. */

const MATTERS: readonly { readonly names: RegExp; readonly matter: string }[] = [
  { names: /nitrous|\bn2o\b|\bnos\b/iu, matter: 'nitrous oxide' },
  {
    names: /turbo|superch|forced.?induction|blower|boost|intercool|wastegate|compressor/iu,
    matter: 'forced induction',
  },
];

/** What a name that is no field speaks of, where that is known and not forecast; else null. */
export function notForecast(name: string): string | null {
  return MATTERS.find(({ names }) => names.test(name))?.matter ?? null;
}

/** The line that answers for it, and what can be done. */
export function notForecastMessage(matter: string): { readonly message: string; readonly hint: string } {
  return {
    message: `speaks of ${matter}, which is not forecast`,
    hint: 'engines here breathe the air around them; forecast this one without it, and leave the field out',
  };
}
