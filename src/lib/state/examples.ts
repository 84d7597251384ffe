/** The jobs in static/examples: rooms of one invented refurbishment, a village library. */
export const EXAMPLES = [
  { file: 'library-reading-room.json', name: 'Village library, reading room supply' },
  { file: 'library-entrance-hall.json', name: 'Village library, entrance hall return' },
  { file: 'library-store-room.json', name: 'Village library, store room extract' },
  { file: 'library-loft.json', name: 'Village library, loft plant and its branches' },
  { file: 'attic-beam.json', name: 'Village library, reading room supply past the beam' }
] as const;
