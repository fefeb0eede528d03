/** The page around a report: one file that needs nothing else, neither network nor script. */
import { createHash } from 'node:crypto';
import { type About, jobMarkup, NOTHING_ABOUT, notesMarkup } from './about.ts';
import { html, type Markup, trusted, unbroken } from './html.ts';
import { STYLE_SHEET } from './styleSheet.ts';

export interface Page {
  /** What the report is about: a name from a file. */
  readonly subject: string;
  /** What the file says of the job. */
  readonly about?: About;
  /** The line read first. */
  readonly answer: string;
  /** What the answer rests on, a paragraph each. */
  readonly basis: readonly Markup[];
  readonly body: readonly Markup[];
  readonly foot: readonly Markup[];
}

/** What would be more and breaks a limit follows the answer in smaller type: it is not the answer. */
const BEYOND = '. More, but ';

function answerMarkup(answer: string): Markup {
  const at = answer.indexOf(BEYOND);
  if (at < 0) return html`<p class="answer">${unbroken(answer)}</p>\n`;
  return html`<p class="answer">${unbroken(answer.slice(0, at))}</p>
<p class="beyond">${unbroken(answer.slice(at + 2))}</p>
`;
}

export function page({ subject, about = NOTHING_ABOUT, answer, basis, body, foot }: Page): string {
  const hash = createHash('sha256').update(STYLE_SHEET).digest('base64');
  // The browser is told to load nothing and to run nothing; the one style sheet is known by its digest.
  const policy = `default-src 'none'; style-src 'sha256-${hash}'; base-uri 'none'; form-action 'none'`;
  return html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${trusted(policy)}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<meta name="referrer" content="no-referrer">
<title>${subject} - valvetide</title>
<style>${trusted(STYLE_SHEET)}</style>
</head>
<body>
<header>
<h1><bdi>${subject}</bdi></h1>
${jobMarkup(about)}${answerMarkup(answer)}${basis.map((paragraph) => html`<p class="basis">${paragraph}</p>\n`)}
</header>
<main>
${[...body]}
${notesMarkup(about)}</main>
<footer>
${[...foot]}
</footer>
</body>
</html>
`.markup;
}
