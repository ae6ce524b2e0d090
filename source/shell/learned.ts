import type {Learned} from '../estimation/memory.ts';
import {hasShape, isListOf, isNumber, isText, isWhole, optional, type ShapeOf} from '../session/shape.ts';

/** What the store keeps for a guitar between set-ups. */
export interface KeptLearned {
	/** The set-up that taught it last, and what was known before that one. */
	readonly setup: string;
	/** Milliseconds since 1970. */
	readonly at: number;
	readonly learned: Learned;
	readonly before?: Learned;
}

const isEstimate = hasShape({mean: isNumber, sd: isNumber});

const isLearned = hasShape({
	strings: isWhole,
	mean: isListOf(isNumber),
	covariance: isListOf(isListOf(isNumber)),
	clamp: optional(isListOf(each => each === null || isEstimate(each))),
	clawArm: optional(isEstimate),
} satisfies ShapeOf<Learned>);

const isKept = hasShape({
	setup: isText,
	at: isNumber,
	learned: isLearned,
	before: value => value === undefined || isLearned(value),
} satisfies ShapeOf<KeptLearned>);

function keptFrom(value: unknown): KeptLearned | undefined {
	return isKept(value) ? (value as KeptLearned) : undefined;
}

/**
 * What a set-up may start from. Never what it taught itself, nor what came
 * later: its own readings would count twice.
 */
export function learnedFor(
	value: unknown,
	setup: {readonly id: string; readonly startedAt: number},
): Learned | undefined {
	const kept = keptFrom(value);
	if (kept === undefined) return undefined;
	if (kept.setup === setup.id) return kept.before;
	return kept.at <= setup.startedAt ? kept.learned : undefined;
}

/** What to keep once a set-up is done. A set-up that is done again replaces its own lesson. */
export function withLesson(value: unknown, setup: string, learned: Learned, now: number): KeptLearned {
	const kept = keptFrom(value);
	const before = kept?.setup === setup ? kept.before : kept?.learned;
	return {setup, at: now, learned, ...(before && {before})};
}
