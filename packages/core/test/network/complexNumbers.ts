/** Complex numbers, as far as waves of one frequency ask for them. */
export interface Complex {
  readonly re: number;
  readonly im: number;
}

export const complex = (re: number, im = 0): Complex => ({ re, im });

export const plus = (a: Complex, b: Complex): Complex => complex(a.re + b.re, a.im + b.im);

export const minus = (a: Complex, b: Complex): Complex => complex(a.re - b.re, a.im - b.im);

export const times = (a: Complex, b: Complex): Complex =>
  complex(a.re * b.re - a.im * b.im, a.re * b.im + a.im * b.re);

export const over = (a: Complex, b: Complex): Complex => {
  const square = b.re * b.re + b.im * b.im;
  return complex((a.re * b.re + a.im * b.im) / square, (a.im * b.re - a.re * b.im) / square);
};

export const sizeOf = ({ re, im }: Complex): number => Math.hypot(re, im);
