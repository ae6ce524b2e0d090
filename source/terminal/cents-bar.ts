import type {Estimate} from '../numeric/estimate.ts';
import {halfWidth} from '../units/spread.ts';
import type {Glyphs} from './glyphs.ts';
import {type Line, merged, type Span, span} from './line.ts';
import type {Meaning} from './theme.ts';

/** Cents at which the last rung of either side is reached; further out, an arrow takes its place. */
export const lastRungCents = 50;

/**
 * Cents at which each rung on one side begins, from the tolerance outwards in
 * equal ratios, so that a ladder of a few rungs tells 1 cent from 2 and 20
 * from 40. A string within tolerance has no bricks at all.
 *
 * @param rungs Whole, ≥ 1.
 * @param toleranceCents > 0.
 */
export function rungCents(rungs: number, toleranceCents: number): readonly number[] {
	const first = Math.min(toleranceCents, lastRungCents / 2);
	return Array.from(
		{length: rungs},
		(_, at) => first * (lastRungCents / first) ** (rungs === 1 ? 0 : at / (rungs - 1)),
	);
}

/**
 * Cents at a glance, as bricks laid from a post in the middle: to the left
 * flat, to the right sharp. Laid bricks are sure, loose ones are possible: both
 * within what "±" promises in numbers. The aim, if any, stands on its rung.
 *
 * @param width Cells, odd and ≥ 3; the middle one is the post.
 */
export function centsBar({
	now,
	aimCents,
	toleranceCents,
	width,
	glyphs,
}: {
	readonly now?: Estimate | undefined;
	readonly aimCents?: number | undefined;
	readonly toleranceCents: number;
	readonly width: number;
	readonly glyphs: Glyphs;
}): Line {
	const rungs = Math.floor((width - 1) / 2);
	const cents = rungCents(rungs, toleranceCents);
	const within = now !== undefined && Math.abs(now.mean) <= toleranceCents;
	const half = now === undefined ? 0 : halfWidth(now);
	const colour: Meaning = within ? 'good' : 'attention';

	const side = (sign: 1 | -1): readonly Span[] =>
		cents.map((from, at) => {
			const next = cents[at + 1] ?? Number.POSITIVE_INFINITY;
			if (aimCents !== undefined && sign * aimCents >= from && sign * aimCents < next)
				return span(glyphs.aim, 'accent');
			if (now === undefined) return span(glyphs.rung, 'quiet');
			const out = sign * now.mean;
			if (out > lastRungCents * 1.5 && at === rungs - 1)
				return span(sign > 0 ? glyphs.beyondSharp : glyphs.beyondFlat, 'danger');
			if (out - half >= from) return span(glyphs.brick, colour);
			if (out + half >= from) return span(glyphs.mortar, colour);
			return span(glyphs.rung, 'quiet');
		});

	const post = within ? span(glyphs.postGood, 'good') : span(glyphs.post, 'quiet');
	return merged([...side(-1).toReversed(), post, ...side(1)]);
}
