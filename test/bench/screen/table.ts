import {quantile} from 'simple-statistics';

export function quantileOf(values: readonly number[], share: number): number {
	return quantile([...values], share);
}

/** Text in columns: names to the left, numbers to the right. */
export function table(titles: readonly string[], rows: readonly (readonly string[])[]): string {
	const all = [titles, ...rows];
	const widths = titles.map((_, at) => Math.max(...all.map(row => row[at]!.length)));
	const lineOf = (row: readonly string[]) =>
		row
			.map((cell, at) => (at === 0 ? cell.padEnd(widths[at]!) : cell.padStart(widths[at]!)))
			.join('  ')
			.trimEnd();
	return all.map(lineOf).join('\n');
}
