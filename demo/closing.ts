import type {Fact} from '../source/session/facts.ts';
import {formatCents, formatCentsSpread} from '../source/units/cents.ts';
import {formatLength, formatLengthSpread, formatTravel} from '../source/units/length.ts';
import type {Played} from './play.ts';

/** The truth of the simulated guitar beside what the tool believed of it, and what it took. */
export function closingLines({story, believed, truth}: Played): readonly string[] {
	const {sheet, strings, plate} = believed;
	const movedMm = (string: number) =>
		sum(story.map(fact => (fact.type === 'SaddleMoved' && fact.string === string ? fact.travelMm : 0)));
	const rows = strings.map((row, index) => [
		`${row.string} ${row.note}`,
		inCents(truth.cents[index]),
		row.now ? formatCentsSpread(row.now) : 'unread',
		inCents(truth.fretted12ErrorCents[index]),
		row.intonationCents ? formatCentsSpread(row.intonationCents) : 'unread',
		movedMm(row.string) === 0 ? 'not moved' : formatTravel(movedMm(row.string), sheet.units),
	]);
	const {units} = sheet;
	return [
		'The guitar behind it, hidden until now, beside what the tool believed (cents):',
		'',
		...tableLines([['string', 'open: true', 'believed', 'fretted 12th: true', 'believed', 'saddle'], ...rows]),
		'',
		`  tail: true ${formatLength(1000 * truth.tailM, units, {signed: true})}, believed ${formatLengthSpread(plate.tailMm, units, {signed: true})}, wanted ${formatLength(sheet.plateWishMm, units)}`,
		`  ${counted(story, ['PegTurned', 'FineTunerTurned'])} turns of pegs and fine tuners, ${counted(story, ['ClawTurned'])} of the claw, ${counted(story, ['SaddleMoved'])} saddle moves, ${counted(story, ['PitchRead'])} plucks`,
	];
}

function inCents(cents: number | undefined): string {
	return cents === undefined ? 'slack' : formatCents(cents);
}

function counted(story: readonly Fact[], types: readonly Fact['type'][]): number {
	return story.filter(({type}) => types.includes(type)).length;
}

function sum(numbers: readonly number[]): number {
	return numbers.reduce((total, number) => total + number, 0);
}

function tableLines(rows: readonly (readonly string[])[]): readonly string[] {
	const widths = rows[0]!.map((_, column) => Math.max(...rows.map(row => row[column]!.length)));
	return rows.map(row => `  ${row.map((cell, column) => cell.padEnd(widths[column]!)).join('  ')}`.trimEnd());
}
