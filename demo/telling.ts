import type {Bench, Forecast} from '../source/session/bench.ts';
import type {Deed} from '../source/session/facts.ts';
import {entryWords} from '../source/shell/story-words.ts';
import {formatCents, formatCentsSpread} from '../source/units/cents.ts';
import {formatTail} from '../source/units/length.ts';
import type {Step, Whim} from './walker.ts';

type Read = Extract<Deed, {type: 'PitchRead'}>;

/** Steps of one stage in print: plucks that were simply asked for and done share lines, every other step has its own. */
export function stageLines(steps: readonly Step[]): readonly string[] {
	const lines: string[] = [];
	for (let at = 0; at < steps.length; at++) {
		const plucks = steps.slice(at, at + runOfPlucks(steps.slice(at)));
		if (plucks.length === 0) lines.push(...stepLines(steps[at]!));
		else lines.push(...pluckLines(plucks.flatMap(({deeds}) => deeds as readonly Read[])));
		at += Math.max(0, plucks.length - 1);
	}

	return lines;
}

/** How many steps at the start are plucks and nothing else. */
function runOfPlucks(steps: readonly Step[]): number {
	const end = steps.findIndex(({whim, deeds}) => whim !== undefined || !deeds.every(({type}) => type === 'PitchRead'));
	return end < 0 ? steps.length : end;
}

const plucksInLine = 10;

/** `plucked, tuner shows: 5 −9.5, 3 −6.1`, the number being the string's. */
function pluckLines(reads: readonly Read[]): readonly string[] {
	const shown = reads.map(
		({string, how, cents}) => `${string}${how === 'open' ? '' : ` ${how}`} ${formatCents(cents)}`,
	);
	const rows = Math.ceil(shown.length / plucksInLine);
	return Array.from({length: rows}, (_, row) => {
		const part = shown.slice(row * plucksInLine, (row + 1) * plucksInLine).join(', ');
		return row === 0 ? `  plucked as asked, tuner shows: ${part}` : `      ${part}`;
	});
}

function stepLines({task, bench, whim, deeds, said}: Step): readonly string[] {
	const done = deeds.length === 0 ? undefined : doneWords(deeds, bench, whim ? undefined : task.enter?.label);
	return [
		`  ${task.headline}`,
		...(task.act ? forecastLines(bench.forecast(task.act), bench) : []),
		...(whim ? wrapped(`person: ${acted(whim)}${whim.because === undefined ? '' : `  (${whim.because})`}`) : []),
		...(said ? wrapped(`wizard: ${said}`) : []),
		...(done ? wrapped(`done: ${done}`) : []),
	];
}

const columns = 100;

/** Indented, and broken between words. */
function wrapped(text: string): readonly string[] {
	const lines: string[] = [];
	for (const word of text.split(' ')) {
		const last = lines.at(-1);
		if (last !== undefined && last.length + word.length < columns - 8) lines[lines.length - 1] = `${last} ${word}`;
		else lines.push(word);
	}

	return lines.map((line, index) => `${index === 0 ? '      ' : '        '}${line}`);
}

/** A choice on the way is said as its Enter key says it. */
function doneWords(deeds: readonly Deed[], {sheet}: Bench, label: string | undefined): string {
	const isWay = deeds.every(({type}) => type === 'WayChosen' || type === 'StagePassed');
	return isWay && label !== undefined ? label : entryWords(deeds, sheet);
}

function acted(whim: Whim): string {
	switch (whim.kind) {
		case 'types':
			return `types ${whim.text}${whim.meant ? ' and means it' : ''}`;
		case 'takes-back':
			return 'takes the last entry back';
		case 'presses':
			return `presses ${whim.key}`;
	}
}

/** What was shown before the act; nothing where nothing worth telling moves. */
function forecastLines({moves, tipMm, matters, strain}: Forecast, {sheet}: Bench): readonly string[] {
	const strings = moves.map(({string, cents}) => `${string} ${formatCentsSpread(cents)}`).join(', ');
	const tip = Math.abs(tipMm.mean) < 0.05 ? '' : `; tail moves ${formatTail(tipMm.mean, sheet.units)}er`;
	return [
		...(matters ? wrapped(`foretold: ${strings}${tip}`) : []),
		...(strain
			? [`      caution: string ${strain.string} would bear ${Math.round(100 * strain.share)} % of its strength`]
			: []),
	];
}
