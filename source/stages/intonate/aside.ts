import {type StringNumber, stringNumbers} from '../../music/string-number.ts';
import type {Bench, StringRow} from '../../session/bench.ts';
import type {Deed} from '../../session/facts.ts';
import {readingsAfter} from '../common/story.ts';

/** What the person looks at beside the plan, as a choice in the story. */
export const asideChoice = 'intonation aside';

export type Aside = {readonly kind: 'frets'; readonly row: StringRow} | {readonly kind: 'wishes'};

/** Frets asked for one after the other: low ones show the nut, high ones the action. */
export const usualFrets = [5, 12, 17, 19] as const;

/** What is looked at now; undefined while the plan leads. */
export function asideOf({ways, strings}: Bench): Aside | undefined {
	const value = ways[asideChoice];
	if (value === 'wishes') return {kind: 'wishes'};
	const row = strings.find(({string}) => value === fretsOf(string));
	return row && {kind: 'frets', row};
}

export function fretsAside(string: StringNumber): Deed {
	return {type: 'WayChosen', choice: asideChoice, value: fretsOf(string)};
}

export const wishesAside: Deed = {type: 'WayChosen', choice: asideChoice, value: 'wishes'};
export const noAside: Deed = {type: 'WayChosen', choice: asideChoice, value: 'none'};

function fretsOf(string: StringNumber): string {
	return `frets of ${string}`;
}

/** The next thing to sound for a look at the frets; undefined when all usual ones were. */
export type FretSounding = {readonly how: 'harmonic'} | {readonly how: 'fretted'; readonly fret: number};

export function fretSoundingOf({string, saddle}: StringRow, bench: Bench): FretSounding | undefined {
	if (readingsAfter(bench.story, string, 'harmonic', bench.lastAdjustment).length === 0) return {how: 'harmonic'};
	const isTwelfthRead = readingsAfter(bench.story, string, 'fretted', bench.lastAdjustment).length > 0;
	const read = new Set(saddle?.frets?.readings.map(({fret}) => fret));
	const fret = usualFrets.find(each => !read.has(each) && !(each === 12 && isTwelfthRead));
	return fret === undefined ? undefined : {how: 'fretted', fret};
}

/** Frets can only be read on a string that sounds. */
export function canReadFrets({state}: StringRow, {blocked}: Bench): boolean {
	return !blocked && state !== 'slack' && state !== 'off';
}

/** `4:` or a number alone: that string. */
export function stringNumberIn(text: string, {strings}: Bench): StringNumber | undefined {
	const [, number] = /^\s*(\d)\s*:?\s*$/.exec(text) ?? [];
	return stringNumbers.find(each => String(each) === number && strings.some(({string}) => string === each));
}
