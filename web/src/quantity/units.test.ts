import { expect, it } from 'vitest';
import { show } from './units';

const kYear = 31557600;
const kHour = 3600;

it('service times stay in hours, ages are years, waiting is weeks', () => {
  expect(show(25000 * kHour, 'duration', 'si')).toBe('25000\u00a0h');
  expect(show(87600 * kHour, 'duration', 'us')).toBe('87600\u00a0h');
  expect(show(0.5 * kHour, 'duration', 'si')).toBe('0.5\u00a0h');
  expect(show(12 * kYear, 'age', 'si')).toBe('12\u00a0years');
  expect(show(kYear, 'age', 'us')).toBe('1\u00a0year');
  expect(show(3 * 86400, 'lead_time', 'si')).toBe('3\u00a0d');
});
