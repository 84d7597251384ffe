import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import { formatAngle, parseAngle } from './angle.ts';
import { formatLength, parseLength } from './length.ts';

describe('lengths a person reads and types', () => {
  it('shows whole millimetres, hundredths of an inch and sixteenths', () => {
    expect(formatLength(293.198, 'mm', 0)).toBe('293');
    expect(formatLength(-0.2, 'mm', 0)).toBe('0');
    expect(formatLength(254, 'in', 0)).toBe('10.00');
    expect(formatLength(92.075, 'in/16', 0)).toBe('3 5/8');
    expect(formatLength(25.4 * 0.75, 'in/16', 0)).toBe('3/4');
    expect(formatLength(25.4 * 1.99, 'in/16', 0)).toBe('2');
    expect(formatLength(-92.075, 'in/16', 0)).toBe('-3 5/8');
  });

  it.each(['3 5/8', '3-5/8', '3.625', '3,625', '3.625"', '3.625 in', '92.075 mm'])(
    'reads %s as 3 5/8 inches',
    (text) => {
      expect(parseLength(text, 'in')).toBeCloseTo(92.075, 9);
    }
  );

  it.each(['', 'abc', '3 5', '1/0', '3 5/8 kg', '--3', '1e9'])('does not read "%s"', (text) => {
    expect(parseLength(text, 'in')).toBeNull();
  });

  it('reads back what it shows, to half a sixteenth of an inch', () => {
    fc.assert(
      fc.property(fc.double({ min: -5000, max: 5000, noNaN: true }), (mm) => {
        const back = parseLength(formatLength(mm, 'in/16', 0), 'in/16')!;
        expect(Math.abs(back - mm)).toBeLessThanOrEqual(25.4 / 32 + 1e-9);
      })
    );
  });

  it('shows and reads angles', () => {
    expect(formatAngle(22.5)).toBe('22.5°');
    expect(formatAngle(90)).toBe('90°');
    expect(formatAngle(-0.01)).toBe('0°');
    expect(parseAngle('22,5°')).toBe(22.5);
    expect(parseAngle('22.5.1')).toBeNull();
  });
});
