/** Strings count from the thinnest, as the trade counts them. */
export const stringNumbers = [1, 2, 3, 4, 5, 6, 7, 8] as const;

/** 1 is the thinnest string. */
export type StringNumber = (typeof stringNumbers)[number];

/** The strings of an instrument with `count` strings, thinnest first. */
export function stringsOf(count: number): readonly StringNumber[] {
	return stringNumbers.slice(0, count);
}
