/** `377 lb-ft @ 3800` and `336 hp`: a peak figure with its unit, and its speed where that is known. */
import { misuse } from '../commandFailure.ts';
import { plainShort } from '../render/plain.ts';
import { SHOWN } from '../render/units.ts';

/** A peak in N m or kW. */
export interface Peak {
  readonly value: number;
  readonly rpm: number | null;
}

const ONE_LBFT = 1 / SHOWN.trade.torque(1);
const ONE_HP = 1 / SHOWN.trade.power(1);

const UNITS: Readonly<Record<'torque' | 'power', Readonly<Record<string, number>>>> = {
  torque: { 'lb-ft': ONE_LBFT, 'ft-lb': ONE_LBFT, lbft: ONE_LBFT, ftlb: ONE_LBFT, nm: 1 },
  power: { hp: ONE_HP, bhp: ONE_HP, kw: 1 },
};

/** Figures that an engine can have [N m], [kW], and the speeds at which it can have them [1/min]. */
const LEAST = 1;
const MOST: Readonly<Record<'torque' | 'power', number>> = { torque: 20_000, power: 20_000 };
const SPEEDS = { min: 500, max: 20_000 } as const;

export function parsePeak(kind: 'torque' | 'power', text: string): Peak {
  const parts = /^\s*(\d+(?:\.\d+)?)\s*([a-z][a-z-]*)\s*(?:(?:@|at)\s*(\d+)\s*(?:rpm)?)?\s*$/i.exec(text);
  const factor = parts === null ? undefined : UNITS[kind][parts[2].toLowerCase()];
  if (parts === null || factor === undefined) {
    const example = kind === 'torque' ? '"377 lb-ft @ 3800"' : '"336 hp @ 5300"';
    throw misuse(
      `--peak-${kind} ${plainShort(text)}: write it like ${example}; without the speed where it is not known`,
    );
  }
  const value = Number(parts[1]) * factor;
  const rpm = parts[3] === undefined ? null : Number(parts[3]);
  if (!(value >= LEAST && value <= MOST[kind])) {
    throw misuse(`--peak-${kind} ${plainShort(text)}: no engine has that`);
  }
  if (rpm !== null && !(rpm >= SPEEDS.min && rpm <= SPEEDS.max)) {
    const range = `${SPEEDS.min} to ${SPEEDS.max}`;
    throw misuse(`--peak-${kind} ${plainShort(text)}: ${parts[3]} rpm is outside ${range}`);
  }
  return { value, rpm };
}
