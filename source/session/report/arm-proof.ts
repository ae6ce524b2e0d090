import type {StringNumber} from '../../music/string-number.ts';
import type {Bench} from '../bench.ts';
import {benchOf} from '../bench-of.ts';
import type {Fact, Story} from '../facts.ts';
import {type Leftover, leftoverOf} from './leftover.ts';

export type Motion = Extract<Fact, {type: 'ArmMoved'}>['motion'];

/** One movement of the arm and what it left behind. */
export interface ArmProof {
	readonly motion: Motion;
	readonly leftover: Leftover;
}

/** Every movement of the arm after which all strings were read, in order. */
export function armProofs(bench: Bench): readonly ArmProof[] {
	const {story} = bench;
	return story.flatMap((fact, at) => {
		if (fact.type !== 'ArmMoved') return [];
		const leftover = leftoverAfter(bench, at);
		return leftover ? [{motion: fact.motion, leftover}] : [];
	});
}

/** What the movement at that place of the story left behind; undefined until every string was read before and after. */
export function leftoverAfter(bench: Bench, at: number): Leftover | undefined {
	const {story, strings} = bench;
	const response = responses(story, at);
	const rows = strings.flatMap(({string}) => {
		const before = openReading(story, string, index => index < at, 'last');
		const after = openReading(story, string, index => index > at, 'first');
		if (before === undefined || after === undefined) return [];
		return [{string, changeCents: after - before, responseCents: response.get(string) ?? 0}];
	});
	return rows.length === strings.length ? leftoverOf(rows) : undefined;
}

/**
 * How each string answers a small tip of the bridge: what a touch on the claw
 * would do, as believed before the movement. What was read after it must not
 * judge itself.
 */
function responses(story: Story, at: number): ReadonlyMap<StringNumber, number> {
	const movement = story[at]!;
	const known = responsesBefore.get(movement);
	if (known) return known;
	const {moves} = benchOf(story.slice(0, at)).forecast({kind: 'claw', turns: 1 / 8});
	const found = new Map(moves.map(({string, cents}) => [string, cents.mean]));
	responsesBefore.set(movement, found);
	return found;
}

/** A fact always stands on the same facts, so what was believed before it never changes. */
const responsesBefore = new WeakMap<Fact, ReadonlyMap<StringNumber, number>>();

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
