/**
 * Lengths that differ by less than this are the same length, mm. Far below what a tape can tell and far above the
 * rounding of double numbers at the size of a building (about 1e-11 mm).
 */
export const SAME_LENGTH = 1e-6;

/** Lengths are written down in steps of this, mm: a figure read in a sheet and typed again may differ by half of it. */
export const WRITTEN_LENGTH = 1e-3;

/** Angles that differ by less than this are the same angle, degrees: 1e-6 mm over a radius of 57 m. */
export const SAME_ANGLE = 1e-9;
