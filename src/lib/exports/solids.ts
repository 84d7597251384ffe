import { findFitting } from '../figures/paper-mark-out.ts';
import { pickPieceColour } from '../figures/style.ts';
import type { Model } from '../kernel/evaluate.ts';
import type { Body } from '../kernel/fitting/fitting.ts';
import { IDENTITY, movePoint, turnDirection, type Motion } from '../kernel/geometry/motion.ts';
import { listFacets, type Facet } from '../solids/facets.ts';
import { describeExport, nameFile, whenFitting, type Export, type Format } from './export.ts';
import { writeGlb, type Solid } from './glb.ts';
import { writeStl } from './stl.ts';
import { writeZip } from './zip.ts';

/**
 * Shells of board as they are glued together, each closed by itself: neighbours meet in faces and are not made one, so
 * that a solid can be taken apart again. A piece by itself lies as its marks do: x is the station on its straight; a
 * panel as it lies on the bench.
 */
export const SOLIDS: readonly Export[] = [
  describeExport('solid-glb', 'glb', whenFitting(Boolean), async (model, index) =>
    writeGlb(
      findTag(model, index),
      listSolids(model, index, ({ placement }) => placement)
    )
  ),
  describePieces('pieces-glb', 'glb', (solid) => writeGlb(solid.name, [solid])),
  describeExport('solid-stl', 'stl', whenFitting(Boolean), async (model, index) => {
    const solids = listSolids(model, index, ({ placement }) => placement);
    return writeStl(
      findTag(model, index),
      solids.flatMap(({ facets, placement }) => facets.map((facet) => moveFacet(placement, facet)))
    );
  }),
  describePieces('pieces-stl', 'stl', async ({ name, facets }) => writeStl(name, facets))
];

/** A zip of one file for every body, in its own frame. */
function describePieces(
  id: Export['id'],
  format: Format,
  write: (solid: Solid) => Promise<Uint8Array>
): Export {
  const writeAll: Export['write'] = async (model, index) => {
    const { bodies } = findFitting(model, index).built!.fitting;
    const solids = listSolids(model, index, () => IDENTITY);
    const names = bodies.map(({ name }) => `${nameFile(model, index)}-${name}.${format}`);
    const files = await Promise.all(solids.map(write));
    return writeZip(files.map((bytes, i) => [names[i]!, bytes]));
  };
  return describeExport(id, format, whenFitting(Boolean), writeAll, { extension: 'zip' });
}

function listSolids(model: Model, index: number, place: (body: Body) => Motion): Solid[] {
  return findFitting(model, index).built!.fitting.bodies.map((body, i) => ({
    name: `${findTag(model, index)} ${body.name}`,
    facets: listFacets(body),
    placement: place(body),
    colour: pickPieceColour(i, 'light')
  }));
}

/** Without halves of characters, which strict readers of JSON refuse the whole file for. */
function findTag(model: Model, index: number): string {
  return findFitting(model, index).resolved.tag.toWellFormed();
}

function moveFacet(motion: Motion, { corners: [a, b, c], normal }: Facet): Facet {
  const move = (point: Facet['normal']) => movePoint(motion, point);
  return { corners: [move(a), move(b), move(c)], normal: turnDirection(motion, normal) };
}
