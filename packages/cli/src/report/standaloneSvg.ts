/** One figure as an SVG file of its own, with the colours it needs for light and dark. */
import { paletteCss } from './draw/palette.ts';
import { toSvg } from './draw/toSvg.ts';
import { type Figure, specOf } from './figure.ts';

const SIZE = { width: 800, height: 460 };
const STYLE = `${paletteCss('svg')}\nsvg{background:var(--paper)}`;

export async function standaloneSvg(figure: Figure): Promise<string> {
  const { markup } = await toSvg(specOf(figure, SIZE), figure, STYLE);
  return `<?xml version="1.0" encoding="UTF-8"?>\n${markup}\n`;
}
