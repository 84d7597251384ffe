// Uniform Mechanical Code 2009, Appendix A, Standard 6-5, part (C), joint and seam preparation: outward-clinching staples
// 2 in. (50 mm) on centre through the flap; where there is no flap, pieces of closure tape at least 8 in. (203 mm) long,
// at most 12 in. (305 mm) apart, at least one on each side. Read.
import { describe, expect, it } from 'vitest';
import { countTabs } from '../../src/lib/kernel/fitting/practice.ts';
import { buildPath } from '../duct.ts';

describe('closing a duct as the code wants it', () => {
  it('staples the flap every 50 mm', () => {
    const staple = buildPath([900], []).steps.find(({ kind }) => kind === 'staple')!;
    expect(staple.data['pitch']).toBe(50);
    expect(staple.source).toBe('closure');
  });

  it('holds a mitered joint by tabs at least 203 long and at most 305 apart', () => {
    const tab = buildPath([600, 600], [{ turn: 45, heel: 90 }]).steps.find(({ kind }) => kind === 'tab')!;
    expect(tab.data['length']).toBe(203);
    expect(tab.data['pitch']).toBe(305);
    expect(tab.source).toBe('closure');
  });

  it('puts three tabs on a side of 700 mm and one on the shortest side', () => {
    expect(countTabs(700)).toBe(3); // Computed from the rule.
    expect(countTabs(100)).toBe(1);
    expect(countTabs(305)).toBe(1);
    expect(countTabs(306)).toBe(2);
  });

  it('counts the tabs of all four sides of a joint along the cut', () => {
    // 700 × 250 outside; the cut slants along the two cheeks: 250 / cos 30 is 288.7, the heel and throat stay 700.
    const { steps } = buildPath([900, 900], [{ turn: 60, heel: 0 }], { width: 650, height: 200 });
    expect(steps.find(({ kind }) => kind === 'tab')!.data['tabs']).toBe(3 + 1 + 3 + 1);
    // The heel on the right: the cheeks are top and bottom, 700 / cos 30 is 808.3.
    const turned = buildPath([900, 900], [{ turn: 60, heel: 90 }], { width: 650, height: 200 });
    expect(turned.steps.find(({ kind }) => kind === 'tab')!.data['tabs']).toBe(3 + 1 + 3 + 1);
    // 45 degrees of miter: 700·√2 is 989.9, four tabs.
    const right = buildPath([900, 900], [{ turn: 90, heel: 90 }], { width: 650, height: 200 });
    expect(right.steps.find(({ kind }) => kind === 'tab')!.data['tabs']).toBe(4 + 1 + 4 + 1);
  });
});
