import type {StringNumber} from '../../music/string-number.ts';
import {mayMovePitch} from '../deed-nature.ts';
import type {Fact, Story} from '../facts.ts';

/**
 * Fretted 12th minus harmonic as read on a string, cents: the latest pair read
 * with nothing touched in between, repeated plucks averaged, since its saddle
 * was moved last and since it was put on. Where no harmonic was read, the open
 * reading stands for it: at one tension both agree within a quarter of a cent.
 * Undefined until there is such a pair.
 */
export function intonationRead(story: Story, string: StringNumber): number | undefined {
	const since = story.findLastIndex(
		fact => (fact.type === 'SaddleMoved' || fact.type === 'StringFitted') && fact.string === string,
	);
	return windowsOf(story.slice(since + 1))
		.map(facts => pairIn(facts, string))
		.findLast(cents => cents !== undefined);
}

function pairIn(facts: Story, string: StringNumber): number | undefined {
	const reads = facts.flatMap(fact => (fact.type === 'PitchRead' && fact.string === string ? [fact] : []));
	const sounded = (wanted: string) => reads.filter(({how}) => how === wanted).map(({cents}) => cents);
	const fretted = reads.filter(({how, fret}) => how === 'fretted' && (fret === undefined || fret === 12));
	const harmonic = sounded('harmonic');
	const reference = harmonic.length > 0 ? harmonic : sounded('open');
	if (fretted.length === 0 || reference.length === 0) return undefined;
	return mean(fretted.map(({cents}) => cents)) - mean(reference);
}

/** Runs of facts during which no pitch was moved by a hand. */
function windowsOf(story: Story): readonly Story[] {
	const windows: Fact[][] = [[]];
	for (const fact of story) {
		if (mayMovePitch(fact)) windows.push([]);
		else windows.at(-1)!.push(fact);
	}

	return windows;
}

function mean(numbers: readonly number[]): number {
	return numbers.reduce((total, number) => total + number, 0) / numbers.length;
}
