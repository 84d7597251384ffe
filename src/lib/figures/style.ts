import type { LineKind } from './figure.ts';

/** Line group 0.5 of ISO 128: wide 0.5 mm, narrow 0.25 mm. Dashes in mm on paper. */
export const LINES: Readonly<Record<LineKind, { readonly width: number; readonly dash: readonly number[] }>> =
  {
    visible: { width: 0.5, dash: [] },
    /** Under fills that cover its inner half: what is seen of it is wide. */
    rim: { width: 1, dash: [] },
    cut: { width: 0.5, dash: [] },
    narrow: { width: 0.25, dash: [] },
    fold: { width: 0.25, dash: [] },
    hidden: { width: 0.25, dash: [3, 1.5] },
    axis: { width: 0.25, dash: [6, 1.5, 0.25, 1.5] },
    phantom: { width: 0.25, dash: [6, 1.5, 0.25, 1.5, 0.25, 1.5] }
  };

/**
 * Fills of pieces, always together with their names. Paul Tol, Colour Schemes (SRON/EPS/TN/09-002), the pale scheme for
 * light and the dark scheme for dark backgrounds, safe for colour-blind readers; from memory.
 */
export const PIECE_COLOURS = {
  light: ['#BBCCEE', '#EEEEBB', '#CCDDAA', '#FFCCCC', '#CCEEFF', '#DDDDDD'],
  dark: ['#222255', '#666633', '#225522', '#663333', '#225555', '#555555']
} as const;

/** Fills on paper that are no piece. */
export const PLAIN_FILLS = { board: '#F2EFE6', air: '#FFFFFF', offcut: '#EFEFEF', ink: '#000000' } as const;

/** The fill of the n-th piece, from 0; the scheme repeats. */
export function pickPieceColour(index: number, scheme: 'light' | 'dark'): string {
  const colours = PIECE_COLOURS[scheme];
  return colours[index % colours.length]!;
}
