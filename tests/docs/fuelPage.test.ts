/** The page of fuels says what the fuels in the code are. */
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { stoichiometricAirFuelRatio } from '../../packages/core/src/gas/freshGas.ts';
import { FUELS } from '../../packages/core/src/gas/fuels.ts';
import { readGuide, root } from './guides.ts';

const page = 'docs/guide/fuels.md';

const introduction = `# Fuels

Made from the fuels in the program by \`npx vitest run --project default tests/docs/fuelPage.test.ts -u\`. Write the name as \`fuel\`
in [the combination file](combination-file.md); a fuel of your own is given by its atoms, heats and octane numbers, as
[the page on the model](../theory/fuels.md) shows. Sources and what is from memory stand there too.

- **antiknock**: the number on an American pump, the mean of research (RON) and motor (MON) octane. European pumps show RON.
- **air to fuel**: kilograms of air to burn one of fuel, lambda 1. A meter set for gasoline shows lambda times 14.7 whatever the fuel.
- **heat**: lower heating value of the liquid. What an engine makes of it goes with the heat in a kilogram of *mixture*.
- **cooling**: latent heat of evaporation. Fuels that enter as a gas have none.
`;

function row(fuel: (typeof FUELS)[number]): string {
  const { name, researchOctane: research, motorOctane: motor, latentHeat } = fuel;
  const air = stoichiometricAirFuelRatio(fuel);
  const heat = fuel.lowerHeatingValue / 1e6;
  const cells = [`\`${name}\``, (research + motor) / 2, research, motor, air.toFixed(1), heat.toFixed(1)];
  const mixed = (heat / (1 + air)).toFixed(2);
  return `| ${[...cells, mixed, Math.round(latentHeat / 1000)].join(' | ')} |`;
}

const heads = [
  'fuel',
  'antiknock',
  'RON',
  'MON',
  'air to fuel',
  'heat, MJ/kg',
  'of mixture, MJ/kg',
  'cooling, kJ/kg',
];

describe('the page of fuels', () => {
  it('is what the fuels are', async () => {
    const table = [`| ${heads.join(' | ')} |`, `|${' --- |'.repeat(heads.length)}`, ...FUELS.map(row)];
    await expect(`${introduction}\n${table.join('\n')}\n`).toMatchFileSnapshot(join(root, page));
  });

  // Heywood (1988), table D.4, from memory: gasoline 14.6 and 44.0 MJ/kg, methanol 6.47, 20.0 and 1103 kJ/kg, ethanol 9.0, 26.9 and 840.
  it.each([
    ['methanol', 6.47, 20, 1103],
    ['ethanol', 9, 26.9, 840],
  ])('has %s within a tenth of a printed table: air, heat and cooling', (name, air, heat, cooling) => {
    const line = readGuide(page)
      .split('\n')
      .find((text) => text.startsWith(`| \`${name}\``));
    const cells = (line ?? '').split('|').map((cell) => cell.trim());
    for (const [i, printed] of [
      [5, air],
      [6, heat],
      [8, cooling],
    ])
      expect(Math.abs(Number(cells[i]) / printed - 1)).toBeLessThan(0.1);
  });
});
