/** Travel and run per unit of offset by turn, degrees: csc and cot, computed (the classic list of the handbooks: from memory). */
export const TRAVEL_AND_RUN = [
  [90, 1.0, 0],
  [72, 1.0515, 0.3249],
  [60, 1.1547, 0.5774],
  [45, 1.4142, 1.0],
  [30, 2.0, 1.7321],
  [22.5, 2.6131, 2.4142],
  [15, 3.8637, 3.7321],
  [11.25, 5.1258, 5.0273],
  [5.625, 10.2023, 10.1532]
] as const;
