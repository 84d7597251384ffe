import type { EdgeKind } from '../kernel/fitting/wall.ts';
import type { Face } from '../kernel/straight/section.ts';

/**
 * Which side of the board a face of a body shows: the facing, the air way, the board's own thickness at an end, or
 * the same where a section plane cuts the body open.
 */
export type Surface = 'outside' | 'inside' | 'rim' | 'cap';

export const SURFACES: readonly Surface[] = ['outside', 'inside', 'rim', 'cap'];

/**
 * A line of a body, with the walls it belongs to: an edge of a wall on its facing or on its inside; at an end (`rim`)
 * the corner where two walls meet, or of kind `face` one where two ends of board meet; in a section (`cap`) the outline
 * of a wall, of kind `face` where it runs along the facing or the inside.
 */
export interface MeshEdge {
  readonly surface: Surface;
  readonly kind: EdgeKind | 'face';
  readonly faces: readonly Face[];
  /** The cut that made it, for kind `cut`. */
  readonly cut?: string;
}
