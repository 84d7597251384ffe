/** The stock as bought, and how it is folded. Lengths mm, density kg/m³, conductivity W/(m·K). */
export interface Board {
  readonly thickness: number;
  readonly length: number;
  readonly width: number;
  /** The pair of edges along which the joining profile runs. */
  readonly profile: 'long' | 'short';
  /** How far a male end reaches beyond its shoulder. */
  readonly spigot: number;
  readonly corner: 'miter' | 'shiplap';
  /** Width of the stapling flap: facing only, the wool stripped. */
  readonly flap: number;
  readonly density: number;
  readonly conductivity: number;
}

/** What the shop works to. Lengths mm, angles degrees. */
export interface Shop {
  /** Least shortest edge of an end piece. */
  readonly minThroat: number;
  /** Least shortest edge of a piece between two cuts. */
  readonly minGore: number;
  /** The bevels the shop's blades make. */
  readonly blades: readonly { readonly angle: number }[];
}

/** Bevels closer than this to a blade's are that blade's, degrees: 0.02 mm over the depth of a 50 mm board. */
export const SAME_BEVEL = 0.02;

/** The blade of the shop that makes this bevel, degrees; null when none does. */
export function findBlade(shop: Shop, bevel: number): number | null {
  return shop.blades.find(({ angle }) => Math.abs(angle - bevel) < SAME_BEVEL)?.angle ?? null;
}
