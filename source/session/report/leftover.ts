import type {StringNumber} from '../../music/string-number.ts';

/**
 * What the arm left behind: how every string reads after a movement against
 * before it, and what that pattern looks like.
 *
 * `home` all came back; `plate` the change is in proportion to how strings
 * answer the bridge; `one-string` one is off and the rest are not; `all-equal`
 * all changed by the same; `unclear` none of these fits well enough.
 */
export const leftoverCauses = ['home', 'plate', 'one-string', 'all-equal', 'unclear'] as const;
export type LeftoverCause = (typeof leftoverCauses)[number];

export interface Leftover {
	readonly cause: LeftoverCause;
	/** The string that is off, for `one-string`. */
	readonly string?: StringNumber;
	/** Largest change, cents, signed. */
	readonly worstCents: number;
	/** Share of the change that the pattern explains, 0 to 1; 1 for `home`. */
	readonly fit: number;
}

export interface LeftoverRow {
	readonly string: StringNumber;
	/** Reading after minus reading before, cents. */
	readonly changeCents: number;
	/** How far this string goes when the bridge tips a little, cents; any common scale. */
	readonly responseCents: number;
}

/**
 * Up to this a change is no fault, cents: two readings scatter by 0.7, and a
 * sound knife edge comes to rest within a cent or two of home. Judgement; five
 * cents are hard to hear for most.
 */
const soundCents = 4;
/** Least share that a pattern must explain to be named, and least lead over the next one. */
const leastFit = 0.8;
const leastLead = 0.05;

/**
 * Names the pattern by least squares: the change is projected on the bridge's
 * response, on each string alone and on all strings alike; what explains most
 * of the sum of squares wins. A first look: it knows nothing of two causes at once.
 *
 * @param rows All strings read before and after, at least one.
 * @throws {RangeError} If there are none.
 */
export function leftoverOf(rows: readonly LeftoverRow[]): Leftover {
	if (rows.length === 0) throw new RangeError('leftoverOf: expected rows to hold at least one string, got none');
	const change = rows.map(({changeCents}) => changeCents);
	const worstCents = change.reduce((worst, cents) => (Math.abs(cents) > Math.abs(worst) ? cents : worst), 0);
	if (Math.abs(worstCents) <= soundCents) return {cause: 'home', worstCents, fit: 1};
	const response = rows.map(({responseCents}) => responseCents);
	const patterns = [
		{cause: 'plate', fit: explained(change, response)},
		{
			cause: 'all-equal',
			fit: explained(
				change,
				change.map(() => 1),
			),
		},
		...rows.map(({string}, at) => ({
			cause: 'one-string' as const,
			string,
			fit: explained(
				change,
				change.map((_, index) => (index === at ? 1 : 0)),
			),
		})),
	] as const;
	const [best, next] = patterns.toSorted((a, b) => b.fit - a.fit);
	const isClear = best!.fit >= leastFit && best!.fit - (next?.fit ?? 0) >= leastLead;
	return isClear ? {...best!, worstCents} : {cause: 'unclear', worstCents, fit: best!.fit};
}

/** Share of the sum of squares of `change` along `pattern`, 0 to 1. */
function explained(change: readonly number[], pattern: readonly number[]): number {
	const along = dot(change, pattern);
	const size = dot(pattern, pattern) * dot(change, change);
	return size === 0 ? 0 : (along * along) / size;
}

function dot(a: readonly number[], b: readonly number[]): number {
	return a.reduce((sum, value, index) => sum + value * b[index]!, 0);
}
