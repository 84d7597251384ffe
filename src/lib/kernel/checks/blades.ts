import type { Finding } from '../fitting/finding.ts';
import { listMiterJoints, listPanelBodies, type Fitting, type MiterJoint } from '../fitting/fitting.ts';
import { findBlade, SAME_BEVEL, type Shop } from '../straight/board.ts';
import { markCut, measureBlade } from '../straight/cut.ts';
import { growSection } from '../straight/section.ts';

/** One warning for every different bevel that no blade of the shop makes, at the first joint that asks for it. */
export function checkBlades(fitting: Fitting, shop: Shop): Finding[] {
  const findings: Finding[] = [];
  const told: number[] = [];
  const miters = new Map(listMiterJoints(fitting).map((joint) => [joint.cut, joint]));
  for (const straight of fitting.straights) {
    const outside = growSection(straight.section, straight.thickness);
    for (const cut of straight.cuts) {
      const joint = miters.get(cut.name);
      const marks = markCut(cut, outside, straight.thickness);
      const plain = marks.some(({ bevel }) => bevel === 0);
      for (const { bevel, setback, depth } of marks) {
        if (findBlade(shop, bevel) !== null || told.some((one) => Math.abs(one - bevel) < SAME_BEVEL))
          continue;
        told.push(bevel);
        findings.push({
          level: 'warning',
          code: 'no-blade',
          ...(joint ? { param: joint.turnedBy.param } : {}),
          // An upright cut stays upright however the duct turns.
          ...(plain && bevel > 0 ? suggestTurn(joint, shop) : {}),
          data: { cut: cut.name, bevel, setback, depth },
          source: 'shop'
        });
      }
    }
  }
  for (const { name, bevel, thickness, param } of listOtherEdges(fitting)) {
    if (findBlade(shop, bevel) !== null || told.some((one) => Math.abs(one - bevel) < SAME_BEVEL)) continue;
    told.push(bevel);
    findings.push({
      level: 'warning',
      code: 'no-blade',
      ...(param ? { param } : {}),
      data: { cut: name, bevel, ...measureBlade(bevel, thickness) },
      source: 'shop'
    });
  }
  return findings;
}

/** The bevelled edges of panels and openings, and the line marks. */
function listOtherEdges(
  fitting: Fitting
): { name: string; bevel: number; thickness: number; param?: string }[] {
  return [
    ...fitting.straights.flatMap(({ openings, marks, thickness }) => [
      ...openings.flatMap(({ name, edges }) => edges.map(({ bevel }) => ({ name, bevel, thickness }))),
      ...marks.map(({ name, bevel }) => ({ name, bevel, thickness }))
    ]),
    ...listPanelBodies(fitting).flatMap(({ name, panel, walls, sizedBy }) =>
      panel.edges.map(({ bevel }) => ({
        name,
        bevel,
        thickness: Math.abs(walls[0]!.inner[0]![1]),
        param: sizedBy.param
      }))
    )
  ];
}

/** For a plain turn, whose only bevel is its miter: the turn at the nearest blade. */
function suggestTurn(joint: MiterJoint | undefined, shop: Shop): { would?: number } {
  if (!joint) return {};
  const angles = shop.blades.map(({ angle }) => angle).filter((angle) => angle > 0 && angle <= 45);
  if (angles.length === 0) return {};
  const nearest = angles.reduce((a, b) => (Math.abs(b - joint.miter) < Math.abs(a - joint.miter) ? b : a));
  const would = joint.turnedBy.raise(nearest - joint.miter);
  return would === null ? {} : { would };
}
