/**
 * Colours by role. Hues after Okabe and Ito (Color Universal Design, 2008), which stay apart for every common colour
 * vision, darkened on paper and lightened on dark ground for contrast. Every series differs in dash or shape as well.
 */

/** A series colour; drawings name it, the style sheet gives it its value. */
export type Colour = 'a' | 'b' | 'c' | 'd' | 'e' | 'f' | 'ink' | 'soft';

export const SERIES: readonly Colour[] = ['a', 'b', 'c', 'd', 'e', 'f'];

export const colour = (name: Colour): string => `var(--${name})`;

/** The same as a faint filling. */
export const wash = (name: Colour): string => `var(--${name}-wash)`;

const LIGHT: Readonly<Record<string, string>> = {
  paper: '#ffffff',
  panel: '#f6f5f1',
  rule: '#d8d6ce',
  ink: '#1c1c1a',
  soft: '#5b5a55',
  a: '#00609c',
  b: '#b84500',
  c: '#00755a',
  d: '#9c3f83',
  e: '#7d6200',
  f: '#3a7f9f',
};

const DARK: Readonly<Record<string, string>> = {
  paper: '#171716',
  panel: '#22211f',
  rule: '#43413c',
  ink: '#eceae4',
  soft: '#b5b2a9',
  a: '#62b5f0',
  b: '#ff9c5b',
  c: '#4fc7a2',
  d: '#e49bd0',
  e: '#e0c04d',
  f: '#a5d8ee',
};

/** Custom properties on `scope`: light, dark where the reader asks for it, light again on paper. */
export function paletteCss(scope: string): string {
  const light = declarations(LIGHT, 20);
  return [
    `${scope}{color-scheme:light dark;${light}}`,
    `@media (prefers-color-scheme:dark){${scope}{${declarations(DARK, 30)}}}`,
    `@media print{${scope}{color-scheme:light;${light}}}`,
  ].join('\n');
}

function declarations(values: Readonly<Record<string, string>>, washPercent: number): string {
  const plain = Object.entries(values).map(([name, value]) => `--${name}:${value}`);
  const washes = [...SERIES, 'soft'].map(
    (name) =>
      `--${name}-wash:${values[name]}${Math.round((name === 'soft' ? washPercent * 0.6 : washPercent) * 2.55)
        .toString(16)
        .padStart(2, '0')}`,
  );
  return [...plain, ...washes].join(';');
}
