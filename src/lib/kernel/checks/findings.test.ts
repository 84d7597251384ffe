import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { evaluateOne } from '../../../../tests/duct.ts';
import { makeSpeech, speak, tellFinding } from '../../words/words.ts';
import type { SaidFitting } from '../document/job.ts';
import { DEFAULT_SHOW, LANGUAGES } from '../document/job.ts';
import type { Finding, FindingCode, Level } from '../fitting/finding.ts';
import { SOURCES } from '../sources.ts';

const SECTION = { width: 400, height: 250 };
const bend = (params: object, more: object = {}): SaidFitting => ({
  family: 'bend',
  section: SECTION,
  params: { turn: 90, heel: 'right', ...params },
  ...more
});
const straight = (length: number, section = SECTION): SaidFitting => ({
  family: 'straight',
  section,
  params: { length }
});

/** A fitting that provokes each finding, and how grave it is. */
const PROVOKED: [FindingCode, Level, SaidFitting][] = [
  ['edge-vanishes', 'error', bend({ gore: 0 })],
  ['throat-short', 'warning', bend({ throatOut: 150 })],
  ['gore-short', 'warning', bend({ gore: 100 })],
  ['no-blade', 'warning', bend({ turn: 77 })],
  ['two-piece-bend', 'note', bend({ pieces: 2 })],
  [
    'pieces-collide',
    'error',
    {
      family: 'path',
      section: SECTION,
      params: { lengths: [900, 800, 800, 800, 900], joints: [0, 0, 0, 0].map(() => ({ turn: 90, heel: 0 })) }
    }
  ],
  [
    'straight-undivided',
    'error',
    {
      family: 'path',
      section: SECTION,
      // 1600 m in boards of 3 m.
      params: {
        lengths: Array<number>(16).fill(100_000),
        joints: Array.from({ length: 15 }, (_, i) => ({ turn: 10, heel: 180 * (i % 2) }))
      }
    }
  ],
  ['ends-apart', 'warning', straight(4000)],
  ['board-small', 'error', straight(900, { width: 5000, height: 5000 })],
  ['rest-spent', 'error', bend({ throatIn: 900, throatOut: 'rest' })],
  ['rest-along', 'error', bend({ throatOut: 'rest' }, { lay: 'along' })],
  ['radius-idle', 'note', bend({ pieces: 2, radius: 700 })],
  ['setback-fixed', 'error', bend({ pieces: 2, setback: 700 })],
  ['setback-endless', 'error', bend({ turn: 180, setback: 700 })],
  ['end-plain', 'note', straight(900)]
];

describe('findings', () => {
  it.each(PROVOKED)('%s is an %s and is told in every language', (code, level, said) => {
    const found = evaluateOne(said).findings.find((finding) => finding.code === code)!;
    expect(found).toBeDefined();
    expect(found.level).toBe(level);
    expect(SOURCES[found.source].cite).toMatch(/\S/);
    for (const language of LANGUAGES) {
      const told = tellFinding(found, speak(language), makeSpeech({ ...DEFAULT_SHOW, language }));
      expect(told).toMatch(/^\S.*\.$/);
      expect(told).not.toMatch(/undefined|NaN|\[object/);
    }
  });

  it('that mean there is no duct are exactly the errors', () => {
    for (const [, , said] of PROVOKED) {
      const { built, findings } = evaluateOne(said);
      expect(built === null).toBe(findings.some(({ level }) => level === 'error'));
    }
  });

  it('that the kernel can make have a sentence in every language, and no sentence is idle', () => {
    const kernel = new URL('../', import.meta.url);
    const made = new Set(
      readdirSync(kernel, { recursive: true, encoding: 'utf8' })
        .filter((name) => name.endsWith('.ts') && !/\.test\.ts$|finding\.ts$/.test(name))
        .flatMap((name) => [
          ...readFileSync(new URL(name, kernel), 'utf8').matchAll(/'([a-z]+(?:-[a-z]+)+)'/g)
        ])
        .map(([, word]) => word!)
    );
    for (const language of LANGUAGES) {
      const told = Object.keys(speak(language).findings);
      expect(told.length).toBeGreaterThanOrEqual(PROVOKED.length);
      expect(PROVOKED.map(([code]) => code).filter((code) => !told.includes(code))).toEqual([]);
      expect(told.filter((code) => !made.has(code))).toEqual([]);
    }
  });

  it('come once for every different bevel, at the first cut that has it', () => {
    const path: SaidFitting = {
      family: 'path',
      section: SECTION,
      params: { lengths: [600, 700, 700, 600], joints: [0, 180, 0].map((heel) => ({ turn: 40, heel })) }
    };
    const blades = evaluateOne(path).findings.filter(({ code }) => code === 'no-blade');
    expect(blades).toHaveLength(1);
    expect((blades[0] as Finding).data['cut']).toBe('C1');
    const compound: SaidFitting = {
      ...path,
      params: { lengths: [600, 700], joints: [{ turn: 40, heel: 33 }] }
    };
    expect(evaluateOne(compound).findings.filter(({ code }) => code === 'no-blade')).toHaveLength(2);
  });

  it('of a compound cut suggest no turn, for no turn gives two blades at once', () => {
    const compound: SaidFitting = {
      family: 'path',
      section: SECTION,
      params: { lengths: [600, 700], joints: [{ turn: 40, heel: 33 }] }
    };
    for (const { code, would } of evaluateOne(compound).findings) {
      if (code === 'no-blade') expect(would).toBeUndefined();
    }
  });
});
