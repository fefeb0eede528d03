/** What to write for a correction standard that others name and that is not read. */

const J607 = 'STP and STD are J607 (60 F, 29.92 inHg dry): write J607';
const J1349 = 'ISO, ECE and JIS refer to the air of J1349 (77 F, 29.23 inHg dry): write J1349';
const DIN = 'DIN 70020 reads 1 to 2 % below J607: write J607 and bear that in mind';
const EITHER = 'SAE alone is J607 on some sheets and J1349 on others, 4 to 5 % apart';

/** Which known standard is meant, or is next; null where the text names none that is known. */
export function wordForStandard(text: string): string | null {
  if (/\b(iso|ece|ec|eec|ewg|jis)\b/iu.test(text)) return J1349;
  if (/\bst[dp]\b/iu.test(text)) return J607;
  if (/\bdin\b/iu.test(text)) return DIN;
  return /^\W*sae\W*$/iu.test(text) ? EITHER : null;
}
