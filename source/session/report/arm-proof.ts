import type {StringNumber} from '../../music/string-number.ts';
import type {Bench} from '../bench.ts';
import {type BenchDiagnosis, diagnosisOf} from '../diagnosis-of.ts';
import {mayMovePitch} from '../deed-nature.ts';
import type {Fact, Story} from '../facts.ts';

export type Motion = Extract<Fact, {type: 'ArmMoved'}>['motion'];

/** One movement of the arm and what it left behind. */
export interface ArmProof {
	readonly motion: Motion;
	readonly leftover: Leftover;
}

export interface Leftover extends BenchDiagnosis {
	/** Largest change of a string over the movement, cents, signed. */
	readonly worstCents: number;
}

/** Every movement of the arm after which all strings were read, in order. */
export function armProofs(bench: Bench): readonly ArmProof[] {
	return bench.story.flatMap((fact, at) => {
		if (fact.type !== 'ArmMoved') return [];
		const leftover = leftoverAfter(bench, at);
		return leftover ? [{motion: fact.motion, leftover}] : [];
	});
}

/**
 * What the movement at that place of the story left behind; undefined until
 * every string was read before and after. What one movement alone cannot
 * tell, later ones may: then what is known by now is said.
 */
export function leftoverAfter(bench: Bench, at: number): Leftover | undefined {
	const known = leftovers.get(bench)?.get(at);
	if (known) return known;
	const found = derive(bench, at);
	if (!found) return undefined;
	leftovers.set(bench, (leftovers.get(bench) ?? new Map<number, Leftover>()).set(at, found));
	return found;
}

const leftovers = new WeakMap<Bench, Map<number, Leftover>>();

function derive({story, strings, diagnosis}: Bench, at: number): Leftover | undefined {
	const changes = strings.flatMap(({string}) => {
		const before = openReading(story, string, index => index < at, 'last');
		const after = openReading(story, string, index => index > at, 'first');
		return before === undefined || after === undefined ? [] : [after - before];
	});
	if (changes.length < strings.length) return undefined;
	const worstCents = changes.reduce((worst, cents) => (Math.abs(cents) > Math.abs(worst) ? cents : worst), 0);
	const end = story.findIndex((next, index) => index > at && mayMovePitch(next));
	const own = diagnosisOf(end < 0 ? story : story.slice(0, end));
	if (!own) return undefined;
	const isSame = end >= 0 && !story.slice(at + 1).some(next => next.type !== 'ArmMoved' && mayMovePitch(next));
	const later = own.verdict === 'unclear' && isSame ? diagnosis() : undefined;
	return {...(later && later.verdict !== 'sound' ? later : own), worstCents};
}

function openReading(
	story: Story,
	string: StringNumber,
	isWithin: (index: number) => boolean,
	which: 'first' | 'last',
): number | undefined {
	const reads = story.flatMap((fact, index) =>
		fact.type === 'PitchRead' && fact.string === string && fact.how === 'open' && isWithin(index) ? [fact.cents] : [],
	);
	return reads.at(which === 'first' ? 0 : -1);
}
