import { describe, expect, it } from 'vitest';
import { EXAMPLES, PARTED_EXAMPLES, evaluateJob, loadFont } from '../../../tests/paper.ts';
import { inflateContent, readTexts } from '../../../tests/pdf.ts';
import { LANGUAGES } from '../kernel/document/job.ts';
import { FAMILIES } from '../kernel/families/index.ts';
import { EXPORTS } from './index.ts';

const FITTINGS = Object.entries({ ...EXAMPLES, ...PARTED_EXAMPLES });
/** What no file says: a figure or a word that is none. */
const VOID = /NaN|Infinity|∞|undefined|\[object/;

it('the fittings here are of every family', () => {
  expect(new Set(FITTINGS.map(([, { family }]) => family))).toEqual(
    new Set(FAMILIES.map(({ name }) => name))
  );
});

describe.each(LANGUAGES)('every export in the language %s', (language) => {
  describe.each(['mm', 'in/16'] as const)('with lengths in %s', (length) => {
    it.each(FITTINGS)('is written whole: %s', async (_, said) => {
      const model = evaluateJob([said], { show: { length, language } });
      for (const { id, extension, write } of EXPORTS.filter(({ applies }) => applies(model, 0))) {
        // Whole straights take forty pages of letter, and few of A1.
        const written = await write(model, 0, { paper: id === 'whole' ? 'a1' : 'letter', loadFont });
        const content = extension === 'pdf' ? inflateContent(written as Uint8Array) : String(written);
        expect(content.length, id).toBeGreaterThan(100);
        expect(content, id).not.toMatch(VOID);
        if (extension !== 'pdf') continue;
        const texts = await readTexts(written as Uint8Array);
        expect(texts.join('\n'), id).not.toMatch(VOID);
        // The check bar is of 100 mm in every unit; whatever else has a length says it in the unit of the job.
        const inMillimetres = texts.filter((text) => /\d ?mm\b/.test(text) && text !== '100 mm');
        if (length !== 'mm') expect(inMillimetres, id).toEqual([]);
      }
    });
  });
});
