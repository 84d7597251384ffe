/** A job with one bend whose templates take many pages, from a board that yields it in one piece. `board`: its sides, mm. */
export function makeLargeBend(width: number, height: number, pieces: number, board: number): object {
  return {
    format: 'gorewright-job',
    version: 1,
    board: { thickness: 25, length: board, width: board },
    fittings: [
      {
        family: 'bend',
        section: { width, height },
        params: { turn: 90, pieces, heel: 'right', throatIn: 200, gore: 150, throatOut: 200 }
      }
    ]
  };
}
