import type {Bench, StringRow} from '../../session/bench.ts';
import {pitchReads, readReading} from '../../session/entry/reading.ts';
import {readingContext} from '../../session/entry/reading-context.ts';
import type {SaddlePattern} from '../../session/saddle-row.ts';
import {formatCents} from '../../units/cents.ts';
import {formatLength} from '../../units/length.ts';
import {formatPercent} from '../../units/quantities.ts';
import {nameOf} from '../common/rows.ts';
import type {Answer, Task} from '../stage.ts';
import {fretSoundingOf, fretsAside, noAside, stringNumberIn} from './aside.ts';
import {travelShown} from './travel.ts';
import {words} from './words.ts';

/** Other frets of one string, asked for one after the other, and what they tell. */
export function fretTask(row: StringRow, bench: Bench, progress: number): Task {
	const sounding = fretSoundingOf(row, bench);
	const {frets} = words;
	const told = [...readLines(row), ...patternLines(row, bench)];
	const enter = {label: frets.enter, deeds: [noAside]};
	const common = {string: row.string, enter, progress};
	if (!sounding) {
		const pattern = row.saddle?.frets?.pattern;
		return {
			...common,
			headline: pattern ? verdict(pattern, bench) : frets.tooFew(nameOf(row)),
			why: frets.toldWhy,
			how: told,
			prompt: frets.prompt,
			example: frets.example,
			practice: {kind: 'deeds', deeds: [noAside]},
		};
	}
	const {string} = row;
	if (sounding.how === 'harmonic') {
		const {harmonic} = words;
		return {
			...common,
			headline: harmonic.headline(nameOf(row)),
			why: frets.harmonicWhy,
			how: harmonic.how,
			prompt: harmonic.prompt(nameOf(row)),
			example: harmonic.example,
			practice: {kind: 'pluck', string, how: 'harmonic'},
		};
	}
	const {fret} = sounding;
	return {
		...common,
		headline: frets.headline(nameOf(row), fret),
		why: frets.why,
		how: [frets.other, ...told],
		prompt: frets.fretPrompt(nameOf(row), fret),
		example: '+2',
		practice: {kind: 'pluck', string, how: 'fretted', fret},
	};
}

/** A pitch at the fret asked for, `fret 9: +3` at another, `4:` for another string. */
export function answerFret(text: string, row: StringRow, bench: Bench, meant: boolean): Answer {
	const other = stringNumberIn(text, bench);
	if (other !== undefined && text.includes(':')) return {kind: 'deeds', deeds: [fretsAside(other)]};
	const sounding = fretSoundingOf(row, bench);
	const [, number, rest] = /^\s*f(?:ret)?\s*(\d{1,2})\s*[:\s]\s*(.+)$/i.exec(text) ?? [];
	if (number === undefined && !sounding) return {kind: 'refused', said: words.frets.notAFret(text.trim())};
	const fret = number === undefined ? undefined : Number(number);
	if (fret !== undefined && (fret < 1 || fret > 24)) {
		return {kind: 'refused', said: words.frets.notAFret(text.trim())};
	}
	const how = fret === undefined && sounding?.how === 'harmonic' ? 'harmonic' : 'fretted';
	const at = how === 'fretted' ? (fret ?? (sounding?.how === 'fretted' ? sounding.fret : 12)) : undefined;
	const entry = readReading(`${rest ?? text}${meant ? '!' : ''}`, readingContext(bench, row.string, how, at));
	switch (entry.kind) {
		case 'refused':
			return {kind: 'refused', said: entry.said};
		case 'select':
			return {kind: 'deeds', deeds: [fretsAside(entry.string)]};
		case 'slack':
			return {kind: 'deeds', deeds: [noAside, {type: 'StringSlackened', string: entry.string}]};
		case 'doubtful':
			return {kind: 'question', said: entry.said, deedsIfMeant: pitchReads({...entry.reading, meant: true}, how, at)};
		case 'reading':
			return {kind: 'deeds', deeds: pitchReads(entry, how, at)};
	}
}

/** `Against the harmonic: fret 5 +0.8, fret 12 +2.1.` */
function readLines({saddle}: StringRow): readonly string[] {
	const readings = saddle?.frets?.readings ?? [];
	if (readings.length === 0) return [];
	return [words.frets.read(readings.map(({fret, cents}) => words.frets.at(fret, formatCents(cents))).join(', '))];
}

function patternLines({saddle}: StringRow, bench: Bench): readonly string[] {
	const pattern = saddle?.frets?.pattern;
	if (!pattern) return [];
	const {frets} = words;
	const left = pattern.leftCents.map(({fret, cents}) => frets.at(fret, formatCents(cents))).join(', ');
	return [
		...pattern.causes
			.filter(({probability}, index) => index < 3 && probability >= 0.05)
			.map(cause => frets.chance(causeShown(cause, bench), formatPercent(cause.probability))),
		frets.best(travelShown(pattern.travelMm.mean, bench), left),
	];
}

type Told = SaddlePattern['causes'][number];

/** Sure enough to be called by name. */
const sure = 0.6;

function verdict({causes}: SaddlePattern, bench: Bench): string {
	const [likeliest] = causes;
	if (!likeliest || likeliest.probability < sure) return words.frets.undecided;
	return likeliest.cause === 'saddle' ? words.frets.mends : words.frets.beyondSaddle(causeShown(likeliest, bench));
}

function causeShown({cause, amount, fret}: Told, {sheet}: Bench): string {
	const {patterns} = words.frets;
	const mm = formatLength(Math.abs(amount?.mean ?? 0), sheet.units);
	const isMore = (amount?.mean ?? 0) > 0;
	switch (cause) {
		case 'saddle':
			return patterns.saddle;
		case 'action':
			return patterns.action(mm, isMore ? words.higher : words.lower);
		case 'nut-height':
			return patterns['nut-height'](mm, isMore ? words.higher : words.lower);
		case 'nut-place':
			return patterns['nut-place'](mm, isMore ? words.frets.farther : words.frets.nearer);
		case 'one-fret':
			return patterns['one-fret'](fret ?? 12, formatCents(amount?.mean ?? 0));
		case 'old-string':
			return patterns['old-string'];
	}
}
