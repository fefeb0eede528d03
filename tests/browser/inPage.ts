/// <reference lib="dom" />
/// <reference lib="dom.iterable" />
/** What is measured inside the page. Each function runs in the browser and stands alone: it can't see this file. */

/** Texts that can't be read well: too small, too faint, cut off or on top of each other. */
export interface Blemishes {
  readonly small: readonly string[];
  readonly faint: readonly string[];
  readonly outside: readonly string[];
  readonly overlapping: readonly string[];
}

export function findBlemishes(least: { readonly page: number; readonly drawing: number }): Blemishes {
  const small: string[] = [];
  const faint: string[] = [];
  const outside: string[] = [];
  const overlapping: string[] = [];
  const known = new Map<string, readonly number[]>();
  const canvas = document.createElement('canvas').getContext('2d', { willReadFrequently: true });
  if (canvas === null) throw new Error('no canvas');
  const rgb = (colour: string): readonly number[] => {
    const found = known.get(colour);
    if (found !== undefined) return found;
    canvas.clearRect(0, 0, 1, 1);
    canvas.fillStyle = colour;
    canvas.fillRect(0, 0, 1, 1);
    const value = [...canvas.getImageData(0, 0, 1, 1).data];
    known.set(colour, value);
    return value;
  };
  /** Relative luminance of the Web Content Accessibility Guidelines 2.2. */
  const luminance = (colour: string): number => {
    const [r, g, b] = rgb(colour)
      .slice(0, 3)
      .map((v) => (v / 255 <= 0.04045 ? v / 255 / 12.92 : ((v / 255 + 0.055) / 1.055) ** 2.4));
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const contrast = (one: string, other: string): number => {
    const [dark, light] = [luminance(one), luminance(other)].sort((a, b) => a - b);
    return (light + 0.05) / (dark + 0.05);
  };
  const groundOf = (element: Element): string => {
    for (let e: Element | null = element; e !== null; e = e.parentElement) {
      const { backgroundColor } = getComputedStyle(e);
      if (rgb(backgroundColor)[3] === 255) return backgroundColor;
    }
    return 'white';
  };
  const check = (element: Element, text: string, size: number, colour: string, leastSize: number): void => {
    if (size < leastSize) small.push(`${size.toFixed(1)} px: ${text}`);
    const found = contrast(colour, groundOf(element));
    if (found < 4.5) faint.push(`${found.toFixed(2)}: ${text}`);
  };

  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node !== null; node = walker.nextNode()) {
    const element = node.parentElement;
    const text = (node.textContent ?? '').trim();
    if (element === null || text === '' || element.closest('svg') !== null) continue;
    if (!element.checkVisibility()) continue;
    const style = getComputedStyle(element);
    check(element, text.slice(0, 60), Number.parseFloat(style.fontSize), style.color, least.page);
  }

  for (const svg of document.querySelectorAll('svg')) {
    const frame = svg.getBoundingClientRect();
    if (frame.width === 0) continue;
    const scale = frame.width / svg.viewBox.baseVal.width;
    const seen: { text: string; box: DOMRect }[] = [];
    for (const element of svg.querySelectorAll('text')) {
      const style = getComputedStyle(element);
      const text = element.textContent ?? '';
      // The ground under a note is drawn with the paper's colour, below the note itself.
      if (text === '' || style.opacity === '0' || element.getAttribute('fill') === 'var(--paper)') continue;
      check(element, text, Number.parseFloat(style.fontSize) * scale, style.fill, least.drawing);
      const box = element.getBoundingClientRect();
      if (
        box.left < frame.left - 1 ||
        box.right > frame.right + 1 ||
        box.top < frame.top - 1 ||
        box.bottom > frame.bottom + 1
      )
        outside.push(`${svg.querySelector('title')?.textContent}: ${text}`);
      for (const other of seen) {
        const across = Math.min(box.right, other.box.right) - Math.max(box.left, other.box.left);
        // Boxes of text are higher than its letters.
        const down =
          Math.min(box.bottom, other.box.bottom) - Math.max(box.top, other.box.top) - 0.35 * box.height;
        if (across > 1 && down > 0) overlapping.push(`${text} / ${other.text}`);
      }
      seen.push({ text, box });
    }
  }
  return { small, faint, outside, overlapping };
}

/** Width that the page needs and has, and the elements that stick out. */
export function findOverflow(): {
  readonly needs: number;
  readonly has: number;
  readonly wide: readonly string[];
} {
  const has = document.documentElement.clientWidth;
  const wide = [...document.querySelectorAll('body *')].flatMap((element) => {
    if (element.closest('.scroll') !== null && !element.matches('.scroll')) return [];
    const { right, width } = element.getBoundingClientRect();
    return width > 0 && right > has + 1 ? [`${element.tagName} ${element.className} ${right}`] : [];
  });
  return { needs: document.documentElement.scrollWidth, has, wide };
}

/** What a hostile name would have left behind, and what the page says. */
export function findIntruders(): {
  readonly elements: readonly string[];
  readonly text: string;
  readonly title: string;
} {
  const strange = document.querySelectorAll(
    'script, img, iframe, object, embed, link, a, form, input, [onerror], [onload], [style]',
  );
  return {
    elements: [...strange].map((element) => element.outerHTML.slice(0, 120)),
    text: document.body.textContent ?? '',
    title: document.title,
  };
}

export function groundLuminance(): number {
  const [r, g, b] = (getComputedStyle(document.body).backgroundColor.match(/[\d.]+/g) ?? []).map(Number);
  return (0.2126 * r + 0.7152 * g + 0.0722 * b) / 255;
}
