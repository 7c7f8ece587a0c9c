/** Days as they are written: `2006-04-01`, or a year alone. */

/** 29 February is in every fourth year, but not in those of a century that 400 does not divide. */
const daysIn = (year: number, month: number): number =>
  month === 2
    ? (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0
      ? 29
      : 28
    : [4, 6, 9, 11].includes(month)
      ? 30
      : 31;

/** What is wanted where something else is written. */
export const WANTED_DAY = 'a day as "2006-04-01", or a year as "2006"';

/** The day that a text names, the first of January for a year alone; null: there is no such day. Days sort as texts. */
export function readDay(text: string): string | null {
  const [, year, month, day] = /^(\d{4})(?:-(\d\d)-(\d\d))?$/.exec(text) ?? [];
  const [m, d] = [Number(month ?? '01'), Number(day ?? '01')];
  return year !== undefined && m >= 1 && m <= 12 && d >= 1 && d <= daysIn(Number(year), m)
    ? `${year}-${month ?? '01'}-${day ?? '01'}`
    : null;
}
