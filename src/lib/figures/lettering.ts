import { cosDegrees, sinDegrees } from '../kernel/geometry/angle.ts';
import { SAME_LENGTH } from '../kernel/geometry/tolerance.ts';
import { bindFigures } from '../words/words.ts';
import type { Box, Figure, Point, Text } from './figure.ts';

/** Heights of capitals on paper, mm, from the ISO 3098 series. */
export const LETTERING = { labels: 1.8, figures: 2.5, names: 3.5, title: 5 } as const;

/**
 * Widths of characters as shares of the letter size, by no font's own measure but safely: the wider of DejaVu Sans
 * Condensed (print) and IBM Plex Sans (screen), rounded up to the next twentieth. What is not listed counts as 1.
 */
const WIDTHS: readonly (readonly [width: number, characters: string])[] = [
  [0.25, "'ij"],
  [0.3, ' \u00A0,.l'],
  [0.35, ':;f|·'],
  [0.4, '!()-/I[\\]rt²³'],
  [0.45, '"*'],
  [0.5, '?sz°'],
  [0.55, 'JLckvxy⌀'],
  [0.6, '$0123456789EFSTY_`abdeghnopqu{}–'],
  [0.65, 'ACKPRVXZ'],
  [0.7, 'BDGU'],
  [0.75, '&HNOQ'],
  [0.8, '#+<=>^w~×−±→←≤'],
  [0.85, 'M↑↓∠'],
  [0.9, '@Wm—½'],
  [0.95, '%']
];
const WIDTH_OF = new Map(
  WIDTHS.flatMap(([width, characters]) => [...characters].map((c) => [c, width] as const))
);

/** Bold letters are drawn with a stroke round them or from a wider cut. */
const BOLD = 1.08;

/** Capitals are seven tenths of the letter size in the screen's font (0.698) and a little more in print (0.729). */
const CAPITALS = 0.7;

/** How far letters reach from the middle of the capitals, in heights of capitals: plain ones, and descenders. */
const ABOVE = 0.55;
const BELOW = 0.65;
const DESCENT = 0.8;
const DESCENDERS = /[^ -~°×]|[gjpqyQ,;()[\]{}|@$_]/;

/** The letter size (of an em, as fonts are sized) that gives capitals of this height; both in the same unit. */
export function findLetterSize(height: number): number {
  return height / CAPITALS;
}

/** Width of a text on paper, mm: never less than it takes in either font, a few hundredths more. */
export function measureText(text: string, height: number, bold = false): number {
  let shares = 0;
  for (const character of text) shares += WIDTH_OF.get(character) ?? 1;
  return shares * findLetterSize(height) * (bold ? BOLD : 1);
}

/** The four corners of the room a text takes, paper mm. `scale` is mm on paper per mm of the thing drawn. */
export function findTextRoom(text: Text, scale: number): Point[] {
  const { at, height, anchor, angle = 0 } = text;
  const width = measureText(text.text, height, text.bold);
  const below = DESCENDERS.test(text.text) ? DESCENT : BELOW;
  const left = -width * ANCHORED[anchor];
  const [x, y] = [at[0] * scale, at[1] * scale];
  const [cosine, sine] = angle === 0 ? [1, 0] : [cosDegrees(angle), sinDegrees(angle)];
  const corner = (along: number, down: number): Point => [
    x + along * cosine + down * sine,
    y - along * sine + down * cosine
  ];
  return [
    corner(left, -ABOVE * height),
    corner(left + width, -ABOVE * height),
    corner(left + width, below * height),
    corner(left, below * height)
  ];
}

/** Share of a text's width to the left of its anchor. */
const ANCHORED = { start: 0, middle: 0.5, end: 1 } as const;

/** The box of a figure on paper with the room of its texts, paper mm from the figure's origin; null when empty. */
export function measureOnPaper(figure: Figure, scale: number): Box | null {
  const points = figure.layers.flatMap(({ items }) =>
    items.flatMap((item) =>
      item.kind === 'text'
        ? findTextRoom(item, scale)
        : item.points.map(([x, y]): Point => [x * scale, y * scale])
    )
  );
  if (points.length === 0) return null;
  return {
    left: Math.min(...points.map(([x]) => x)),
    top: Math.min(...points.map(([, y]) => y)),
    right: Math.max(...points.map(([x]) => x)),
    bottom: Math.max(...points.map(([, y]) => y))
  };
}

/** What bindFigures puts in place of a space. */
const BOUND = '\u00A0';

/**
 * Breaks a text into lines no wider than `width` paper mm; a single longer word is broken where the line ends. Figures stay
 * with their fraction and unit, also where these stick out.
 */
export function breakLines(text: string, height: number, width: number, bold = false): string[] {
  const lines: string[] = [];
  for (const word of bindFigures(text).split(' ')) {
    const last = lines[lines.length - 1];
    if (last !== undefined && measureText(`${last} ${word}`, height, bold) <= width) {
      lines[lines.length - 1] = `${last} ${word}`;
    } else {
      lines.push(...breakWord(word, height, width, bold));
    }
  }
  return lines.map((line) => line.replaceAll(BOUND, ' '));
}

/** A word in as few lines as it takes, each of at least one letter; part of a figure would be another figure. */
function breakWord(word: string, height: number, width: number, bold: boolean): string[] {
  if (word.includes(BOUND) || measureText(word, height, bold) <= width) return [word];
  const lines = [''];
  let used = 0;
  for (const letter of word) {
    const wide = measureText(letter, height, bold);
    const isFull = used > 0 && used + wide - width > SAME_LENGTH;
    if (isFull) lines.push(letter);
    else lines[lines.length - 1] += letter;
    used = isFull ? wide : used + wide;
  }
  return lines;
}

/** A text on one line no wider than `width` paper mm: what is too much is cut off and stands as three dots. */
export function shortenText(text: string, height: number, width: number, bold = false): string {
  const line = text.replace(/\s+/g, ' ').trim();
  if (measureText(line, height, bold) <= width) return line;
  const letters = [...line];
  while (letters.length > 0 && measureText(`${letters.join('')}…`, height, bold) > width) letters.pop();
  return `${letters.join('').trimEnd()}…`;
}
