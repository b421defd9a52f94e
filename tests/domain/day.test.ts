import { afterAll, describe, expect, test } from 'vitest';
import { addDays, daysBetween, instantAt, isDay, noonOf } from '../../src/domain/day';

const utc = (year: number, month: number, ...rest: number[]) => Date.UTC(year, month - 1, ...rest);

describe('the day of an instant, in the zone where it was logged', () => {
  test.each<[what: string, at: number, zone: string, day: string]>([
    ['just before midnight in Vienna', utc(2026, 3, 1, 22, 59), 'Europe/Vienna', '2026-03-01'],
    ['just after midnight in Vienna', utc(2026, 3, 1, 23, 1), 'Europe/Vienna', '2026-03-02'],
    ['midnight of the short day', utc(2026, 3, 28, 23, 0), 'Europe/Vienna', '2026-03-29'],
    ['the last minute of the short day', utc(2026, 3, 29, 21, 59), 'Europe/Vienna', '2026-03-29'],
    ['after the short day', utc(2026, 3, 29, 22, 0), 'Europe/Vienna', '2026-03-30'],
    ['the last minute of the long day', utc(2026, 10, 25, 22, 59), 'Europe/Vienna', '2026-10-25'],
    ['after the long day', utc(2026, 10, 25, 23, 0), 'Europe/Vienna', '2026-10-26'],
    ['east of the date line', utc(2026, 3, 1, 11, 0), 'Pacific/Kiritimati', '2026-03-02'],
    ['west of the date line, the same instant', utc(2026, 3, 1, 11, 0), 'Pacific/Pago_Pago', '2026-03-01'],
    ['half past an hour', utc(2026, 3, 1, 18, 30), 'Asia/Kolkata', '2026-03-02'],
    ['a leap day', utc(2028, 2, 29, 12), 'UTC', '2028-02-29'],
    ['before 1970', -1, 'UTC', '1969-12-31'],
    ['long before 1970', utc(1912, 6, 23, 12), 'UTC', '1912-06-23'],
    ['the year 9999', utc(9999, 12, 28, 12), 'UTC', '9999-12-28'],
  ])('%s', (_, at, zone, day) => {
    expect(instantAt(at, zone)).toEqual({ at, day, zone });
  });

  test.each(['Nowhere/Atlantis', '', 'Europe/Vienna ', '__proto__'])(
    '[M4] the zone %j is taken as UTC, not refused',
    (zone) => {
      expect(instantAt(0, zone)).toEqual({ at: 0, day: '1970-01-01', zone: 'UTC' });
    },
  );

  test.each([Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 1e20, -1e20, 8.64e15, -8.64e15])(
    '[M4] a clock of %d refuses nothing, and the day can be written',
    (clock) => {
      for (const zone of ['UTC', 'Pacific/Kiritimati', 'Pacific/Pago_Pago']) {
        const { at, day } = instantAt(clock, zone);
        expect(Number.isFinite(at)).toBe(true);
        expect(isDay(day)).toBe(true);
      }
    },
  );
});

describe('days that exist', () => {
  test.each(['2027-02-28', '2028-02-29', '2000-02-29', '2026-12-31', '9999-12-31', '1900-01-01'])('%s does', (day) => {
    expect(isDay(day)).toBe(true);
  });

  test.each([
    ['2027-02-30'],
    ['2027-02-29'],
    ['1900-02-29'],
    ['2026-13-01'],
    ['2026-00-10'],
    ['2026-04-31'],
    ['2026-01-00'],
    ['26-01-01'],
    ['2026-1-1'],
    ['10000-01-01'],
    ['2026-01-01T00:00'],
    [' 2026-01-01'],
    ['2026/01/01'],
    ['tomorrow'],
    [''],
  ])('%j does not', (day) => {
    expect(isDay(day)).toBe(false);
  });
});

describe('counting days', () => {
  const device = process.env['TZ'];
  afterAll(() => {
    if (device === undefined) delete process.env['TZ'];
    else process.env['TZ'] = device;
  });

  // whatever zone the phone is in: some skip midnight itself when clocks change
  const zones = [
    'UTC',
    'Europe/Vienna',
    'America/New_York',
    'America/Sao_Paulo',
    'Africa/Cairo',
    'Asia/Beirut',
    'Pacific/Kiritimati',
  ];
  test.each(zones)('a phone in %s counts as the calendar does', (zone) => {
    process.env['TZ'] = zone;
    // the change of clocks in Vienna, in New York, in Cairo, and once in São Paulo
    for (const [before, after] of [
      ['2026-03-28', '2026-03-30'],
      ['2026-10-24', '2026-10-26'],
      ['2026-03-07', '2026-03-09'],
      ['2026-04-23', '2026-04-25'],
      ['2018-11-03', '2018-11-05'],
    ] as const) {
      expect(addDays(before, 2)).toBe(after);
      expect(addDays(after, -2)).toBe(before);
      expect(daysBetween(before, after)).toBe(2);
      expect(daysBetween(after, before)).toBe(-2);
    }
    expect(addDays('2027-12-31', 1)).toBe('2028-01-01');
    expect(addDays('2028-02-28', 1)).toBe('2028-02-29');
    expect(daysBetween('2000-01-01', '2100-01-01')).toBe(36_525);
    expect(daysBetween('2026-03-01', '2026-03-01')).toBe(0);
  });

  test('noon of a day is in that day and in that year, the years before 100 too', () => {
    expect(new Date(noonOf('2026-03-29')).toISOString()).toBe('2026-03-29T12:00:00.000Z');
    expect(new Date(noonOf('0027-05-01')).toISOString()).toBe('0027-05-01T12:00:00.000Z');
  });
});
