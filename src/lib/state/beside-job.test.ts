import { describe, expect, it } from 'vitest';
import type { Site } from '../kernel/site/site.ts';
import { readFollowed, readSiteDraft } from './beside-job.ts';

const site: Site = {
  section: { width: 400, height: 250 },
  end: { at: [2000, 0, 0], flow: [1, 0, 0], up: [0, 1, 0] },
  clearance: 25,
  obstacles: [],
  tape: {
    goesOn: 'straight',
    obstacle: { name: 'beam', kind: 'beam' },
    measures: { toObstacle: { value: 1150 } }
  }
};
const draft = { of: '["",null]', site };
const followed = { said: '["offset",{"rise":-220}]', site: '[]', joints: 2, turn: 90 };

describe('a card that was not placed', () => {
  it('is read back as it was kept', () => {
    expect(readSiteDraft(structuredClone(draft))).toEqual(draft);
  });

  it.each([
    undefined,
    null,
    [],
    'card',
    { site },
    { of: draft.of },
    { of: draft.of, site: { ...site, section: { width: 0, height: 250 } } },
    { of: draft.of, site: { ...site, tape: { ...site.tape, measures: { toObstacle: { value: -1 } } } } },
    { of: draft.of, site: { ...site, fitting: 'F1' } }
  ])('is none where no document could say it: %j', (kept) => {
    expect(readSiteDraft(kept)).toBeNull();
  });
});

describe('a fitting that followed its site', () => {
  it('is read back as it was kept', () => {
    expect(readFollowed(structuredClone(followed))).toEqual(followed);
  });

  it.each([undefined, null, [], 7, { ...followed, said: {} }, { ...followed, turn: '90' }])(
    'is none where it cannot be read: %j',
    (kept) => {
      expect(readFollowed(kept)).toBeNull();
    }
  );
});
